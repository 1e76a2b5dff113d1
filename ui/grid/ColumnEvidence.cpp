#include "ui/grid/ColumnEvidence.h"

#include <algorithm>

namespace earwright::ui {

namespace {

/// Below this a dot is hardly seen, and an arc to it would say more than there is.
constexpr double weakestOfPair = 0.2;

} // namespace

std::vector<int> ColumnEvidence::octavePairs() const {
    const auto isStrong = [&](int midi) {
        return std::any_of(pitches.begin(), pitches.end(), [&](const PitchStrength& pitch) {
            return pitch.midi == midi && pitch.strength >= weakestOfPair;
        });
    };
    std::vector<int> pairs;
    for (const PitchStrength& pitch : pitches)
        if (isStrong(pitch.midi) && isStrong(pitch.midi + 12)) pairs.push_back(pitch.midi);
    return pairs;
}

} // namespace earwright::ui
