// How strongly the recording supports each pitch at one place, and between which octaves it leaves the
// choice.
#pragma once

#include "core/listening/PitchRow.h"

#include <vector>

namespace earwright {

struct PitchStrength {
    /// Counted from the recording's tuning.
    int midi = 60;
    /// 0 (nothing) to 1 (certain): the root of the pitch's probability, which falls off so steeply that all
    /// but the best would vanish. Not relative to the other pitches, so that where the recording says little
    /// all stay small.
    double strength = 0;

    double probability() const { return strength * strength; }
    friend bool operator==(const PitchStrength&, const PitchStrength&) = default;
};

/// The pitches that are worth a picture, rising, from probabilities that add up to one. Where nothing stands
/// out all are weak, or there are none.
std::vector<PitchStrength> strengthsOf(const PitchRow& row);

/// The octaves of one name that the recording leaves open, rising: two or more, none of them a speck, the
/// likeliest two together more likely than everything else. Empty where it leaves no such choice. Every
/// partial of a tone's octave is one of the tone's own, so that no two pitches look more alike.
std::vector<PitchStrength> octaveRivals(const std::vector<PitchStrength>& pitches);

} // namespace earwright
