#include "core/check/ClaimViews.h"

#include "core/listening/ViewBlend.h"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <iterator>

namespace earwright {

namespace {

constexpr float leastSureness = -4;
/// In mean log probability; e^(−12 · 1.5) is 1.5e-8.
constexpr double hopelesslyBehind = 1.5;
/// Views that hear a line alike tell no more together than so many of them.
constexpr std::size_t mostViews = 3;
/// A quarter of so many claims tell one view from another.
constexpr std::size_t enoughClaims = 32;

/// Hears some of the claims in some of the views.
void hear(const PassageEvidence& evidence, const std::vector<Claim>& claims,
          const std::vector<std::size_t>& views, const std::vector<std::size_t>& members, ClaimViews& heard) {
    std::vector<Range<Seconds>> spans;
    for (const std::size_t member : members)
        spans.push_back(claims[member].range);
    const auto rows = evidence.spans(views, spans);
    for (std::size_t i = 0; i < views.size(); ++i)
        for (std::size_t k = 0; k < members.size(); ++k)
            heard.rows[views[i]][members[k]] = rows[i][k];
}

double surenessOf(const std::vector<PitchRow>& rows, const std::vector<Claim>& claims,
                  const std::vector<std::size_t>& members) {
    double sum = 0;
    for (const std::size_t member : members) {
        const auto pitch = static_cast<std::size_t>(claims[member].midi - lowestHeardMidi);
        sum += std::max(rows[member][pitch], leastSureness);
    }
    return sum / static_cast<double>(std::max<std::size_t>(members.size(), 1));
}

} // namespace

ClaimViews hearClaims(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
    ClaimViews heard;
    heard.rows.assign(evidence.viewCount(), std::vector<PitchRow>(claims.size()));
    std::vector<std::size_t> views;
    for (std::size_t view = 0; view < evidence.viewCount(); ++view)
        views.push_back(view);
    std::vector<std::size_t> all;
    std::vector<std::size_t> some;
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < claims.size(); ++i) {
        all.push_back(i);
        (claims.size() < enoughClaims || i % 4 == 0 ? some : others).push_back(i);
    }
    hear(evidence, claims, views, some, heard);
    for (const std::size_t view : views)
        heard.sureness.push_back(surenessOf(heard.rows[view], claims, some));
    const auto behind = [&](std::size_t view) {
        return heard.sureness[view] < *std::ranges::max_element(heard.sureness) - hopelesslyBehind;
    };
    std::vector<std::size_t> hopeful;
    std::ranges::remove_copy_if(views, std::back_inserter(hopeful), behind);
    const auto favoured = [&](std::size_t view) {
        const bool isBoth = evidence.view(view) == View::Both;
        return heard.sureness[view] + (isBoth ? ViewBlend::inFavourOfBoth : 0);
    };
    std::ranges::stable_sort(hopeful, std::ranges::greater(), favoured);
    if (!others.empty()) hopeful.resize(std::min(hopeful.size(), mostViews));
    hear(evidence, claims, hopeful, others, heard);
    double surest = -hopelesslyBehind + leastSureness;
    for (const std::size_t view : hopeful) {
        heard.sureness[view] = surenessOf(heard.rows[view], claims, all);
        surest = std::max(surest, heard.sureness[view]);
    }
    // What was given up stays behind, whatever the others come to.
    for (const std::size_t view : views)
        if (!std::ranges::count(hopeful, view))
            heard.sureness[view] = std::min(heard.sureness[view], surest - hopelesslyBehind);
    return heard;
}

} // namespace earwright
