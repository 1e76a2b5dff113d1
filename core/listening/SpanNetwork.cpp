#include "core/listening/SpanNetwork.h"

#include "core/listening/PitchBlocks.h"
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

/// What eight pitches tell the others: the sums over their active units.
EARWRIGHT_INLINE inline void
tellOf(const SpanNetwork& network,
       const std::array<std::array<float, SpanNetwork::units>, pitchBlock>& active,
       std::array<std::array<float, wideSize>, pitchBlock>& tells) {
    static_assert(SpanNetwork::numbersTold <= wideSize);
    std::array<float, wideSize> row{};
    std::copy(network.toldBias.begin(), network.toldBias.end(), row.begin());
    Wide sums[pitchBlock];
    for (Wide& sum : sums)
        load(sum, row.data());
    for (std::size_t unit = 0; unit < SpanNetwork::units; ++unit) {
        std::copy(network.told[unit].begin(), network.told[unit].end(), row.begin());
        Wide weights;
        load(weights, row.data());
        for (std::size_t pitch = 0; pitch < pitchBlock; ++pitch)
            sums[pitch] += weights * active[pitch][unit];
    }
    for (std::size_t pitch = 0; pitch < pitchBlock; ++pitch)
        store(tells[pitch].data(), sums[pitch]);
}

template <class Vector>
EARWRIGHT_INLINE inline PitchRow scoresOf(const SpanNetwork& network,
                                          const FeatureTable<spanFeatureCount>& features) {
    PitchRow scores;
    std::array<std::array<float, SpanNetwork::heardFromEach>, pitchCount + 2 * margin> heard{};
    for (std::size_t block = 0; block < pitchBlocks; ++block) {
        const std::size_t first = firstOfBlock(block);
        const auto inputs = blockOf(features, first);
        std::array<std::array<float, SpanNetwork::units>, pitchBlock> active;
        std::array<float, pitchBlock> answers;
        std::array<std::array<float, wideSize>, pitchBlock> tells;
        network.alone.activeUnits<Vector>(inputs, active);
        network.alone.from(active, inputs, answers);
        tellOf(network, active, tells);
        for (std::size_t i = 0; i < pitchBlock; ++i) {
            scores[first + i] = answers[i];
            std::copy_n(tells[i].begin(), SpanNetwork::numbersTold, heard[first + i + margin].begin());
        }
    }
    PitchRow probabilities = scores;
    probabilities.normalise();
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        heard[pitch + margin].back() = asTold(probabilities[pitch]);

    const PitchRow alones = scores;
    for (std::size_t block = 0; block < pitchBlocks; ++block) {
        const std::size_t first = firstOfBlock(block);
        using Row = std::array<float, SpanNetwork::relatives.size() * SpanNetwork::heardFromEach>;
        std::array<Row, pitchBlock> inputs;
        std::array<float, pitchBlock> answers;
        for (std::size_t i = 0; i < pitchBlock; ++i) {
            auto next = inputs[i].begin();
            for (const int relative : SpanNetwork::relatives) {
                const auto other = static_cast<std::size_t>(static_cast<int>(first + i + margin) + relative);
                next = std::copy(heard[other].begin(), heard[other].end(), next);
            }
        }
        network.among.of<Vector>(std::span<const Row, pitchBlock>(inputs), answers);
        for (std::size_t i = 0; i < pitchBlock; ++i)
            scores[first + i] = alones[first + i] + answers[i];
    }
    return scores;
}

EARWRIGHT_WIDE_VECTORS
PitchRow wideScores(const SpanNetwork& network, const FeatureTable<spanFeatureCount>& features) {
    return scoresOf<Wide>(network, features);
}

EARWRIGHT_WIDEST_VECTORS
PitchRow widestScores(const SpanNetwork& network, const FeatureTable<spanFeatureCount>& features) {
    return scoresOf<Widest>(network, features);
}

} // namespace

PitchRow SpanNetwork::operator()(const FeatureTable<spanFeatureCount>& features) const {
    return hasWidestVectors() ? widestScores(*this, features) : wideScores(*this, features);
}

} // namespace earwright
