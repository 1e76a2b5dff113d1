#include "core/listening/LineColour.h"

#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cstddef>

namespace earwright {

bool LineColour::isPlain() const {
    return std::ranges::all_of(weights, [](float weight) { return weight == 0; });
}

PitchRow LineColour::addsTo(const SpanLevels& heard) const {
    return weighedSound(heard, weights);
}

EARWRIGHT_WIDE_VECTORS
PitchRow LineColour::addsTo(const SoundColumns& features) const {
    constexpr std::size_t wides = columnSize / wideSize;
    Wide sums[wides]{};
    for (std::size_t feature = 0; feature < soundFeatureCount; ++feature) {
        for (std::size_t i = 0; i < wides; ++i) {
            Wide numbers;
            load(numbers, features[feature].data() + i * wideSize);
            sums[i] += numbers * weights[feature];
        }
    }
    std::array<float, columnSize> added;
    for (std::size_t i = 0; i < wides; ++i)
        store(added.data() + i * wideSize, sums[i]);
    PitchRow row;
    std::copy_n(added.begin(), pitchCount, row.log.begin());
    return row;
}

} // namespace earwright
