// How the line is shown on the page: for which instrument, in which clef.
#pragma once

#include "core/music/ChordSymbol.h"
#include "core/music/KeySignature.h"
#include "core/music/Pitch.h"

#include <optional>

namespace earwright {

/// What a player reads for the same sound (common practice). The study is never changed by it.
enum class Reading {
    Concert,
    BFlat,       ///< trumpet, clarinet, soprano saxophone: a major second higher
    EFlat,       ///< alto saxophone: a major sixth higher
    Tenor,       ///< tenor saxophone, bass clarinet: a major ninth higher
    Baritone,    ///< baritone saxophone: an octave and a major sixth higher
    GuitarOctave ///< guitar and bass: an octave higher
};

/// The third is the treble clef with a small 8 under it: what is read sounds an octave lower.
enum class Clef { Treble, Bass, TrebleOctaveLower };

/// A pitch as it is named on the page.
struct ReadPitch {
    PitchName name;
    /// Scientific octave of the name.
    int octave = 4;
    /// Letters above C0: what the place on the staff is counted by.
    int letters() const { return octave * 7 + static_cast<int>(name.step); }
    friend bool operator==(const ReadPitch&, const ReadPitch&) = default;
};

/// Scientific octave of a name: C flat just under C4 has octave 4. Requires: name fits midi.
int writtenOctave(const PitchName& name, int midi);

/// Semitones from what sounds up to what is read.
int semitonesUp(Reading reading);

/// The key that goes with the reading; of two names for one key the one with fewer accidentals.
KeySignature readAs(Reading reading, const KeySignature& key);

// What stands under a key (as it sounds) goes along with it: where the key is called by its other name, so
// are notes and chords.

/// A sounding pitch, named so, as the player reads it: with a double accidental only where the name had one,
/// and by the plain name where it would need more. Requires: name fits midi. Threads: any.
ReadPitch readAs(Reading reading, int midi, const PitchName& name, const KeySignature& key);
/// The chord as the player reads it; unchanged where the symbol could not be read. Where that
/// would put its root on E♯, B♯, C♭ or F♭, or give one of its tones a double accidental, which was not so
/// before, it is called by its other name: D♯7 is read as E♭7.
ChordSymbol readAs(Reading reading, const ChordSymbol& symbol, const KeySignature& key);

/// Half spaces above the staff's middle line: 0 is B4 in the treble clef, B3 in the one with the 8, D3 in the
/// bass clef.
int staffPosition(const ReadPitch& pitch, Clef clef);

} // namespace earwright
