// What the spectra say for and against each pitch: the levels at its partials, between them and beside them.
#pragma once

#include "core/listening/LogAxis.h"
#include "core/listening/PitchRow.h"
#include "core/listening/WideVectors.h"

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

/// Behind all others: where the pitch lies, and the square of it.
inline constexpr std::size_t placeFeatureCount = 2;

/// A span's spectra as its features look them up: whitened (divided by their mean over an octave),
/// compressed, and each bin the highest of itself and its neighbours.
struct SpanLevels {
    LogBins attack{};
    LogBins before{};
    /// What the attack adds to what was there before it.
    LogBins rise{};
    LogBins sustain{};
};

SpanLevels spanLevels(const SpanSpectra& spectra);

/// Sound that was there before the onset is subtracted in one group of features and told apart in another.
FeatureTable<spanFeatureCount> spanFeatures(const SpanLevels& levels);

/// Of a span's features those that tell how it sounds, and not where the pitch lies.
inline constexpr std::size_t soundFeatureCount = spanFeatureCount - placeFeatureCount;
/// As many pitches as fill whole vectors; those beyond pitchCount are 0.
inline constexpr std::size_t columnSize = (pitchCount + wideSize - 1) / wideSize * wideSize;
/// The same by feature, each of all pitches one after the other.
using SoundColumns = std::array<std::array<float, columnSize>, soundFeatureCount>;

SoundColumns soundColumns(const SpanLevels& levels);
/// The sum of the columns, each by its weight: a number for each pitch.
PitchRow weighedSound(const SoundColumns& columns, const std::array<float, soundFeatureCount>& weights);
/// The same without making them.
PitchRow weighedSound(const SpanLevels& levels, const std::array<float, soundFeatureCount>& weights);

/// Features of the question "does a note begin here", from the 70 ms after and before a place, with the rise
/// of three bands and the level (`loudest` of a bin relative to what is usual in the passage).
FeatureTable<onsetFeatureCount> onsetFeatures(const LogBins& after, const LogBins& before, float usualLevel);

} // namespace earwright
