#include "core/listening/SlurChance.h"

#include <algorithm>
#include <cmath>

namespace earwright {

double slurChance(const AttackFeatures& features, LineCharacter character) {
    // Sounds further from all it was learned on tell no more than these.
    constexpr float farthest = 4;
    const SlurWeights& weights = slurWeights[static_cast<std::size_t>(character)];
    AttackFeatures x{};
    for (std::size_t i = 0; i < x.size(); ++i)
        x[i] = std::clamp((features[i] - weights.mean[i]) / weights.spread[i], -farthest, farthest);
    return 1 / (1 + std::exp(-static_cast<double>(weights.network(x))));
}

} // namespace earwright
