#include "core/listening/SpanNetwork.h"

#include "core/listening/WideVectors.h"

#include <algorithm>

namespace earwright {

namespace {

/// Pitches beyond the lowest and highest tell nothing.
constexpr std::size_t margin = 24;

/// 0 for the impossible, 2.5 for the certain.
float asTold(float logProbability) {
    constexpr float least = -10;
    return std::max(logProbability, least) / 4 + 2.5f;
}

} // namespace

EARWRIGHT_WIDE_VECTORS
PitchRow SpanNetwork::operator()(const FeatureTable<spanFeatureCount>& features) const {
    PitchRow scores;
    std::array<std::array<float, heardFromEach>, pitchCount + 2 * margin> heard{};
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        const auto active = alone.activeUnits(features[pitch]);
        scores[pitch] = alone.from(active, features[pitch]);
        auto& tells = heard[pitch + margin];
        std::copy(toldBias.begin(), toldBias.end(), tells.begin());
        for (std::size_t unit = 0; unit < units; ++unit)
            for (std::size_t i = 0; i < numbersTold; ++i)
                tells[i] += told[unit][i] * active[unit];
    }
    PitchRow probabilities = scores;
    probabilities.normalise();
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        heard[pitch + margin].back() = asTold(probabilities[pitch]);

    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        std::array<float, relatives.size() * heardFromEach> inputs;
        auto next = inputs.begin();
        for (const int relative : relatives) {
            const auto other = static_cast<std::size_t>(static_cast<int>(pitch + margin) + relative);
            next = std::copy(heard[other].begin(), heard[other].end(), next);
        }
        scores[pitch] += among(inputs);
    }
    return scores;
}

} // namespace earwright
