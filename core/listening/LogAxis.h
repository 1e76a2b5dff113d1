// The pitches that are listened for, and the axis of frequencies on which their partials are looked up.
#pragma once

#include <array>
#include <cstddef>

namespace earwright {

/// Lowest and highest pitch evidence is given for: E1 and C7, as MIDI numbers counted from the recording's
/// own tuning. The same as core/music's lowestMidi and highestMidi, which this folder may not include.
inline constexpr int lowestHeardMidi = 28;
inline constexpr int highestHeardMidi = 96;
inline constexpr std::size_t pitchCount = highestHeardMidi - lowestHeardMidi + 1;

/// A third of a semitone a bin, from an octave under the lowest pitch up to 10 kHz (MIDI 123).
inline constexpr int binsPerSemitone = 3;
inline constexpr int axisLowestMidi = 16;
inline constexpr std::size_t axisBins = (123 - axisLowestMidi) * binsPerSemitone + 1;

/// Magnitudes along the axis.
using LogBins = std::array<float, axisBins>;

} // namespace earwright
