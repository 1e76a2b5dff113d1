#include "core/listening/LineColour.h"

#include <algorithm>

namespace earwright {

bool LineColour::isPlain() const {
    return std::ranges::all_of(weights, [](float weight) { return weight == 0; });
}

PitchRow LineColour::addsTo(const SpanLevels& heard) const {
    return weighedSound(heard, weights);
}

PitchRow LineColour::addsTo(const SoundColumns& features) const {
    return weighedSound(features, weights);
}

} // namespace earwright
