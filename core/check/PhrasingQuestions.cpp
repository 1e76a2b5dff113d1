#include "core/check/PhrasingQuestions.h"

#include "core/listening/PitchTrace.h"
#include "core/music/Pitch.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr Seconds farthestOnset{0.09};
/// Where the claim itself says how far its onset may lie, no place there is much likelier than another.
constexpr Seconds wideDeviation{0.2};
constexpr Seconds longestGap{0.15};

AttackQuestion questionAt(const std::vector<PhrasingClaim>& claims, std::size_t i) {
    constexpr double share = 0.45;
    const Seconds at = claims[i].range.begin;
    AttackQuestion asked;
    asked.expected = at;
    if (claims[i].onsetWithin) {
        asked.search = *claims[i].onsetWithin;
        asked.usualDeviation = wideDeviation;
        return asked;
    }
    asked.search = {at - farthestOnset, at + farthestOnset};
    if (i > 0)
        asked.search.begin = std::max(asked.search.begin, at - share * (at - claims[i - 1].range.begin));
    const Seconds room = i + 1 < claims.size() ? claims[i + 1].range.begin - at : claims[i].range.length();
    asked.search.end = std::min(asked.search.end, at + share * std::max(room, Seconds(0.02)));
    return asked;
}

} // namespace

bool followsOn(const std::vector<PhrasingClaim>& claims, std::size_t index) {
    return index > 0 && claims[index].range.begin - claims[index - 1].range.end < longestGap;
}

bool mayBeSlurred(const std::vector<PhrasingClaim>& claims, std::size_t index) {
    if (!followsOn(claims, index)) return false;
    const PhrasingClaim& before = claims[index - 1];
    return before.midi != claims[index].midi && before.range.begin < claims[index].range.begin;
}

std::vector<AttackQuestion> attackQuestions(const TuningCurve& tuning,
                                            const std::vector<PhrasingClaim>& claims) {
    const auto hertzAt = [&](std::size_t i) {
        return hertzOf(claims[i].midi + tuning.centsAt(claims[i].range.begin) / 100);
    };
    std::vector<AttackQuestion> questions;
    for (std::size_t i = 0; i < claims.size(); ++i) {
        questions.push_back(questionAt(claims, i));
        questions.back().hertz = hertzAt(i);
        if (followsOn(claims, i)) questions.back().hertzBefore = hertzAt(i - 1);
    }
    return questions;
}

std::size_t clearestView(const StereoViews& views, const TuningCurve& tuning,
                         const std::vector<PhrasingClaim>& claims) {
    std::vector<double> clarity(views.count(), 0.0);
    for (std::size_t v = 0; v < views.count() && views.count() > 1; ++v)
        for (const PhrasingClaim& claim : claims) {
            const PitchTrace trace =
                PitchTrace::of(views, v, tuning.centsAt(claim.range.begin), claim.range, claim.midi);
            for (const PitchPoint& point : trace.points())
                clarity[v] += point.clarity;
        }
    return static_cast<std::size_t>(std::max_element(clarity.begin(), clarity.end()) - clarity.begin());
}

} // namespace earwright
