// Prints the chord dictionary as a table: one line for each name of each chord, with its intervals as the dictionary
// spells them ("3M" is a major third).
import { all } from "@tonaljs/chord-type";

console.log("name\tintervals");
for (const chord of all())
  for (const name of chord.aliases) console.log(`${name}\t${chord.intervals.join(" ")}`);
