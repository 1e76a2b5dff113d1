// What a pitch is on the chord under it: "3", "♭9", "♯11", and how it is spelled from there.
#pragma once

#include "core/music/ChordSymbol.h"
#include "core/music/Pitch.h"

#include <string>

namespace earwright {

/// A pitch as heard against a chord.
struct ChordDegree {
    /// The degree as musicians write it, with the signs of print.
    std::string label;
    /// The pitch as the chord spells it: on D♭maj7 the seventh is C, the third of E♭m is G♭.
    PitchName name;
    /// The symbol names this tone (its bass, too); see Chord::intervals().
    bool isChordTone = false;
    friend bool operator==(const ChordDegree&, const ChordDegree&) = default;
};

/// The degree of a pitch on a chord (common practice of jazz):
/// 1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7, and what the chord itself calls otherwise: ♯9 and ♭5, ♯5 where the
/// symbol has them, ♭5 and °7 on diminished chords, 2 or 4 on suspended ones, 6 on sixth chords. The note
/// between 2 and 3 is ♭3, the blue third, on dominant chords too unless the symbol says ♯9. Any MIDI number.
/// Threads: any.
ChordDegree degreeOf(int midi, const Chord& chord);

/// What a pitch that is heard is called where somebody wrote this chord; never by a double accidental. Only
/// its tones follow the chord: on F♯m a C is heard, not a B♯. Any MIDI number. Threads: any.
PitchName nameHeardOn(int midi, const Chord& chord);

} // namespace earwright
