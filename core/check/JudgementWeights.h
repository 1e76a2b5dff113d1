// The learned constants of the check; written by core/check/training/odds.py.
#pragma once

#include "core/check/ClaimFeatures.h"
#include "core/check/UnwrittenSounds.h"

#include <array>
#include <cstddef>

namespace earwright {

/// Log odds as a weighted sum of features.
template <std::size_t Count>
struct LogOdds {
    std::array<float, Count> weights;
    float bias;

    float operator()(const std::array<float, Count>& features) const {
        float sum = bias;
        for (std::size_t i = 0; i < Count; ++i)
            sum += weights[i] * features[i];
        return sum;
    }
};

/// Log odds that a claim's pitch is right, and that a note begins there. Learned together: only the product
/// of the two probabilities means something.
extern const LogOdds<claimPitchFeatureCount> claimPitchOdds;
extern const LogOdds<claimOnsetFeatureCount> claimOnsetOdds;
/// Log odds that a suggestion for a claim that is not supported is right.
extern const LogOdds<suggestionFeatureCount> suggestionOdds;
/// Log odds that an unclaimed onset is a note of the line.
extern const LogOdds<unwrittenFeatureCount> unwrittenOdds;

} // namespace earwright
