// How the notes of comping and bass bear out a chord: learned numbers.
#pragma once

#include "core/listening/ChordSound.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Chords that are told apart by ear: by third, fifth and seventh.
enum class ChordFamily {
    Major,
    Dominant,
    Minor,
    HalfDiminished,
    Diminished,
    Augmented,
    Suspended,
    MinorMajor
};
inline constexpr std::size_t chordFamilies = 8;

/// A network of one layer, learned by core/check/training/chords/weights.py. It hears, as square roots of
/// levels by semitones above a root: comping, its registers, the bass and the bass as the chord begins.
struct ChordWeights {
    static constexpr std::size_t parts = 3 + ChordSound::registerCount;
    static constexpr std::size_t inputs = 12 * parts;
    static constexpr std::size_t units = 48;

    std::array<std::array<float, units>, inputs> hidden;
    std::array<float, units> hiddenBias;
    std::array<std::array<float, units>, chordFamilies> out;
    std::array<float, chordFamilies> outBias;
};
extern const ChordWeights chordWeights;

} // namespace earwright
