// A network that scores all pitches of a span, each with an ear to the others.
#pragma once

#include "core/listening/PartialFeatures.h"
#include "core/listening/PitchRow.h"
#include "core/listening/SmallNetwork.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Scores every pitch by its own features, lets it tell a few numbers to the pitches an octave, a twelfth, a
/// fifth, a step and so on away, and adds what those say: a tone whose partials another one explains gives
/// way to it. All pitches share their weights.
///
/// Weights are constants of the program (core/listening/NetworkWeights.cpp).
struct SpanNetwork {
    static constexpr std::size_t units = 96;
    static constexpr std::size_t numbersTold = 8;
    static constexpr std::size_t unitsAmong = 40;
    /// In semitones; the farthest is two octaves.
    static constexpr std::array<int, 15> relatives{-24, -19, -12, -7, -5, -2, -1, 0, 1, 2, 5, 7, 12, 19, 24};
    /// What a pitch tells, and how probable it finds itself among all.
    static constexpr std::size_t heardFromEach = numbersTold + 1;

    SmallNetwork<spanFeatureCount, units> alone;
    std::array<std::array<float, numbersTold>, units> told;
    std::array<float, numbersTold> toldBias;
    SmallNetwork<relatives.size() * heardFromEach, unitsAmong> among;

    /// Unnormalised log probabilities.
    PitchRow operator()(const FeatureTable<spanFeatureCount>& features) const;
};

} // namespace earwright
