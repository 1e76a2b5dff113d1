// `convert IN OUT`: the written notes from one kind of file to another.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* convertUsage =
    "convert IN.study|IN.musicxml|IN.xml|IN.mxl|IN.mid OUT.study|OUT.musicxml|OUT.mxl|OUT.mid [--part "
    "N|NAME] "
    "[--reading concert|b-flat|e-flat|tenor|baritone|guitar] [--under degrees|nothing] [--tab "
    "places|part|none] [--swing "
    "played|even] "
    "[--tempo QUARTERS] [--rhythm fitting|ticks|hand] [--as-played]";

/// Reads IN and writes OUT, each of the kind its name ends in, and returns the exit code. What of a file from
/// elsewhere was left out is told on stderr, a sentence each. --part chooses among its parts by number or
/// name.
/// For MusicXML: who reads it, whether degrees stand under the notes, how tablature is told. For MIDI: where
/// swung notes stand, and one tempo throughout in place of that of the beat marks.
/// --rhythm says where the notes of a MIDI file go (MidiRhythm): where their ticks are, where a listener
/// would count what a hand played, or whichever of the two they fit.
/// --as-played writes a study's notes to a .mid as its recording plays them.
int runConvert(std::span<const std::string> words);

} // namespace earwright::batch
