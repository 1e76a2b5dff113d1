// How likely each chord is by what comping and bass play.
#pragma once

#include "core/check/ChordWeights.h"
#include "core/listening/ChordSound.h"

#include <array>

namespace earwright {

/// By root, C first, then family; all of them together are 1.
using ChordChances = std::array<std::array<double, chordFamilies>, 12>;

/// What speaks beside the comping.
enum class BassSpeaks {
    Throughout,
    /// Not as the chord begins, where a bass other than the root is written.
    AfterItsBeginning
};

/// A pure function; the numbers are those of chordWeights.
ChordChances chordChances(const ChordSound& sound, BassSpeaks bass);

} // namespace earwright
