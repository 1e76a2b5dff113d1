// Draws every page of a MusicXML file and prints how many of each thing the engraver drew, one line a thing. What the
// engraver complains of fails. Usage: node engrave.mjs FILE [PICTURE_OF_FIRST_PAGE]
import { readFileSync, writeFileSync } from "node:fs";
import createVerovioModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";

const [file, picture] = process.argv.slice(2);
const toolkit = new VerovioToolkit(await createVerovioModule());
const loaded = toolkit.loadData(readFileSync(file, "utf8"));
const complaint = toolkit.getLog();
if (!loaded || complaint) {
  console.error(complaint);
  process.exit(1);
}
const pages = Array.from({ length: toolkit.getPageCount() }, (_, index) => toolkit.renderToSVG(index + 1));
if (picture) writeFileSync(picture, pages[0]);
for (const thing of ["measure", "note", "tuplet", "harm", "trill"])
  console.log(thing, pages.join("").match(new RegExp(`class="${thing}[ "]`, "g"))?.length ?? 0);
const heads = [...toolkit.getMEI({}).matchAll(/<note [^>]*xml:id="([^"]*)"/g)].map(match => match[1]);
toolkit.renderToMIDI();
console.log("pitches", ...heads.map(id => toolkit.getMIDIValuesForElement(id).pitch).sort((a, b) => a - b));
