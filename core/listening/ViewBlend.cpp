#include "core/listening/ViewBlend.h"

#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

EARWRIGHT_WIDE_VECTORS
void add(const OnsetTrack::Row& row, float weight, OnsetTrack::Row& sum) {
    for (std::size_t i = 0; i < sum.size(); ++i)
        sum[i] += weight * row[i];
}

} // namespace

ViewBlend::ViewBlend(std::vector<double> sureness) {
    constexpr double sharpness = 12;
    sureness.front() += inFavourOfBoth;
    const double top = *std::max_element(sureness.begin(), sureness.end());
    double sum = 0;
    for (double& sure : sureness) {
        sure = std::exp(sharpness * (sure - top));
        sum += sure;
    }
    for (const double sure : sureness)
        weights.push_back(static_cast<float>(sure / sum));
}

std::size_t ViewBlend::clearest() const {
    return static_cast<std::size_t>(std::max_element(weights.begin(), weights.end()) - weights.begin());
}

/// Log probabilities are seldom under −20: a thousandth of such a one moves none by a fiftieth.
bool ViewBlend::matters(std::size_t view) const {
    return weights[view] > 1e-3f;
}

std::vector<PitchRow> ViewBlend::spans(const PassageEvidence& evidence,
                                       const std::vector<Range<Seconds>>& asked) const {
    std::vector<std::size_t> wanted;
    for (std::size_t view = 0; view < weights.size(); ++view)
        if (matters(view)) wanted.push_back(view);
    std::vector<std::vector<PitchRow>> heard = evidence.spans(wanted, asked);
    std::vector<std::vector<PitchRow>> views(weights.size(), std::vector<PitchRow>(asked.size()));
    for (std::size_t i = 0; i < wanted.size(); ++i)
        views[wanted[i]] = std::move(heard[i]);
    return spans(views);
}

std::vector<PitchRow> ViewBlend::spans(const std::vector<std::vector<PitchRow>>& views) const {
    std::vector<PitchRow> blended(views.front().size());
    for (std::size_t span = 0; span < blended.size(); ++span) {
        for (std::size_t view = 0; view < weights.size(); ++view)
            for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
                blended[span][pitch] += weights[view] * views[view][span][pitch];
        blended[span].normalise();
    }
    return blended;
}

std::vector<SpanLevels> ViewBlend::levels(const PassageEvidence& evidence,
                                          const std::vector<Range<Seconds>>& asked) const {
    std::vector<SpanLevels> blended(asked.size());
    for (std::size_t view = 0; view < weights.size(); ++view) {
        if (!matters(view)) continue;
        const auto heard = evidence.heardBy(view, asked);
        for (std::size_t span = 0; span < asked.size(); ++span)
            for (LogBins SpanLevels::*part :
                 {&SpanLevels::attack, &SpanLevels::before, &SpanLevels::rise, &SpanLevels::sustain})
                for (std::size_t bin = 0; bin < axisBins; ++bin)
                    (blended[span].*part)[bin] += weights[view] * (heard[span]->levels.*part)[bin];
    }
    return blended;
}

OnsetTrack ViewBlend::onsets(const PassageEvidence& evidence) const {
    const OnsetTrack& first = evidence.onsets(0);
    if (weights.size() == 1) return first;
    std::vector<OnsetTrack::Row> rows(first.size());
    for (std::size_t place = 0; place < rows.size(); ++place) {
        for (std::size_t view = 0; view < weights.size(); ++view)
            if (matters(view)) add(evidence.onsets(view)[place], weights[view], rows[place]);
        normaliseLog(rows[place]);
    }
    return OnsetTrack(first.isEmpty() ? Seconds(0) : first.timeOf(0), first.step(), std::move(rows));
}

} // namespace earwright
