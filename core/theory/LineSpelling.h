// How the notes of a line are called: by chord, key and the direction in which the line goes.
#pragma once

#include "core/music/ChordSymbol.h"
#include "core/music/KeySignature.h"
#include "core/music/Pitch.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// A note as far as its name depends on it.
struct LineNote {
    /// Any MIDI number.
    int midi = 60;
    /// Rises by one from what sounds together to what sounds next.
    std::size_t moment = 0;
    KeySignature key;
    /// The chord under it, if one can be read there.
    std::optional<Chord> chord;
    /// What the user calls it; fits midi.
    std::optional<PitchName> wish;
};

struct LineName {
    /// The wish, if there is one.
    PitchName name;
    /// Without it.
    PitchName byItself;
    friend bool operator==(const LineName&, const LineName&) = default;
};

/// The names of a line, in its order. The first of these that holds says it (common practice):
/// 1. A tone of the chord is called as the chord spells it; what “alt” alters as the key has it, if it does,
///    and else in flat keys as 4 says or lowered: A♭ and D♭ over F7alt, in B♭.
/// 2. A note of the key, in minor with raised sixth and seventh, is called as the key has it, where no chord
///    tone stands on that letter, or 4 says the same, or 4 says nothing and it goes on by a whole tone to a
///    note that is called as the key has it: B♭ to C over B°7, in F.
/// 3. A degree of the major scale on the chord's root is called so: B over C7 and F♯ over Dm7, in F.
/// 4. A note that goes on by a semitone is raised from the letter below its goal or lowered from the one
///    above: C♯ to D, D♭ to C. The goal is the next other pitch, or the one after it where the two lie around
///    it.
/// 5. As the degree it is on the chord: ♭9, ♭3, ♯11, ♭13, ♭7.
/// Where there is no chord, the key's tonic takes its place from 3 on, and a black key that comes from a
/// semitone below is raised, from above lowered, a white key from below never flat (B after B♭ and before G),
/// before 5 is asked.
/// What would share its letter with the next note, a whole tone away, has its other name; so has a white key
/// whose accidental the next note takes back: C and not B♯ before B, over E7♯5, but where the key has it.
/// E♯, B♯, C♭ and F♭ need the chord or the key to name them, or 4 and 5 to agree. Nothing but a wish has a
/// double accidental.
/// Requires: ordered by moment. Threads: any; a thousand notes take about a millisecond.
std::vector<LineName> spelledLine(const std::vector<LineNote>& line);

} // namespace earwright
