// How likely it is that a note was slurred from the one before.
#pragma once

#include "core/listening/AttackFeatures.h"
#include "core/listening/LineCharacter.h"
#include "core/listening/SmallNetwork.h"

#include <array>
#include <cstddef>

namespace earwright {

/// What a character's notes are told by: features less their mean, over their spread, and a small network of
/// them. Learned by core/check/training/slurs.
struct SlurWeights {
    static constexpr std::size_t units = 12;

    AttackFeatures mean;
    AttackFeatures spread;
    SmallNetwork<attackFeatureCount, units> network;
};

/// By LineCharacter.
extern const std::array<SlurWeights, lineCharacterCount> slurWeights;

/// 0 (picked, tongued, bowed anew) to 1 (slurred); as many of either beforehand.
double slurChance(const AttackFeatures& features, LineCharacter character);

} // namespace earwright
