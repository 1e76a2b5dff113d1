// How the notes of comping and bass bear out a chord: learned numbers.
#pragma once

#include "core/listening/ChordSound.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Chords that are told apart by ear: by third, fifth and seventh.
enum class ChordFamily { Major, Dominant, Minor, HalfDiminished, Diminished, Augmented, Suspended };
inline constexpr std::size_t chordFamilies = 7;

/// By semitones above the root.
struct ChordFamilyWeights {
    NoteNames comping;
    NoteNames bass;
    NoteNames firstBass;
    double usual;
};

/// Learned by core/check/training/chords/weights.py.
struct ChordWeights {
    std::array<ChordFamilyWeights, chordFamilies> families;
};
extern const ChordWeights chordWeights;

} // namespace earwright
