// What the spectra say for and against each pitch: the levels at its partials, between them and beside them.
#pragma once

#include "core/listening/LogAxis.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Numbers about each pitch. `Count` differs between the two networks that read them.
template <std::size_t Count>
using FeatureTable = std::array<std::array<float, Count>, pitchCount>;

/// Spectra of a note's span.
struct SpanSpectra {
    /// Its first 65 to 160 ms.
    LogBins attack{};
    /// As long a stretch before it.
    LogBins before{};
    /// Up to 350 ms of what follows the attack; the attack itself where the span is short.
    LogBins sustain{};
};

inline constexpr std::size_t spanFeatureCount = 75;
inline constexpr std::size_t onsetFeatureCount = 58;
/// Of these, the last four are the same for all pitches.
inline constexpr std::size_t fluxFeatureCount = 4;

/// Levels are whitened (divided by their mean over an octave) and compressed; sound that was there before
/// the onset is subtracted in one group of features and told apart in another.
FeatureTable<spanFeatureCount> spanFeatures(const SpanSpectra& spectra);

/// Features of the question "does a note begin here", from the 70 ms after and before a place, with the rise
/// of three bands and the level (`loudest` of a bin relative to what is usual in the passage).
FeatureTable<onsetFeatureCount> onsetFeatures(const LogBins& after, const LogBins& before, float usualLevel);

} // namespace earwright
