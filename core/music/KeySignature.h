// The accidentals at the head of the line.
#pragma once

#include "core/music/Pitch.h"

namespace earwright {

/// Which of a key's two scales is meant; both share the accidentals.
enum class Mode { Major, Minor };

/// Sharps (positive) or flats (negative) in the order of fifths, −7 to 7.
struct KeySignature {
    int fifths = 0;
    Mode mode = Mode::Major;

    friend bool operator==(const KeySignature&, const KeySignature&) = default;

    /// What the signature does to a letter: −1, 0 or 1.
    int alterOf(Step step) const;
    PitchName tonic() const;
    /// The scale has this pitch without an accidental (in minor: the natural scale).
    bool contains(int midi) const;
    /// The next pitch of the scale above or below; from a pitch outside the scale too.
    int upperNeighbour(int midi) const;
    int lowerNeighbour(int midi) const;
};

inline constexpr int mostFifths = 7;

} // namespace earwright
