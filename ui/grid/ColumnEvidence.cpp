#include "ui/grid/ColumnEvidence.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// Below this a dot is hardly seen, and an arc to it would say more than there is.
constexpr double weakestOfPair = 0.2;
/// In flat evidence any two pitches are alike; only what outweighs all else together is a choice of octave.
constexpr double probabilityOfPair = 0.5;

} // namespace

std::vector<int> ColumnEvidence::octavePairs() const {
    const auto strengthOf = [&](int midi) {
        const auto found = std::find_if(pitches.begin(), pitches.end(),
                                        [&](const PitchStrength& pitch) { return pitch.midi == midi; });
        return found == pitches.end() ? 0.0 : found->strength;
    };
    std::vector<int> pairs;
    for (const PitchStrength& pitch : pitches) {
        const double upper = strengthOf(pitch.midi + 12);
        const double together = pitch.strength * pitch.strength + upper * upper;
        if (std::min(pitch.strength, upper) >= weakestOfPair && together >= probabilityOfPair)
            pairs.push_back(pitch.midi);
    }
    return pairs;
}

} // namespace earwright::ui
