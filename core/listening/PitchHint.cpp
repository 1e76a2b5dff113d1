#include "core/listening/PitchHint.h"

#include "core/listening/ColourLearning.h"
#include "core/listening/JoinedEvidence.h"
#include "core/listening/MelodyPrior.h"
#include "core/listening/ViewBlend.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace earwright {

namespace {

std::vector<std::size_t> orderOf(const std::vector<Range<Seconds>>& spans) {
    std::vector<std::size_t> order(spans.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return spans[a].begin < spans[b].begin; });
    return order;
}

std::vector<Range<Seconds>> inOrder(const std::vector<Range<Seconds>>& spans,
                                    const std::vector<std::size_t>& order) {
    std::vector<Range<Seconds>> sorted;
    for (const std::size_t index : order)
        sorted.push_back(spans[index]);
    return sorted;
}

double sureness(const std::vector<PitchRow>& rows) {
    double sum = 0;
    for (const PitchRow& row : rows)
        sum += row[row.best()];
    return sum / static_cast<double>(rows.size());
}

/// The views that are surest of spans, heard as of any line: whoever has learned a line is sure of it.
ViewBlend surestOf(const PassageEvidence& evidence, const std::vector<Range<Seconds>>& spans) {
    std::vector<double> sure;
    for (const std::vector<PitchRow>& rows : evidence.allSpans(spans))
        sure.push_back(sureness(rows));
    return ViewBlend(sure);
}

/// Where nothing sounds all pitches are alike, whatever the neighbours say.
bool isSilence(const PitchRow& row) {
    const auto [least, most] = std::minmax_element(row.log.begin(), row.log.end());
    return *least == *most;
}

} // namespace

std::vector<PitchHint> pitchHints(const PassageEvidence& plain, const std::vector<Range<Seconds>>& asked) {
    std::vector<PitchHint> hints(asked.size());
    if (asked.empty()) return hints;
    const std::vector<std::size_t> order = orderOf(asked);
    const std::vector<Range<Seconds>> spans = inOrder(asked, order);
    const ViewBlend blend = surestOf(plain, spans);
    const OnsetTrack onsets = blend.onsets(plain);
    const PassageEvidence evidence = plain.colouredBy(colourOf(plain, blend, onsets, spans, SpanOf::Note));
    const std::vector<PitchRow> heard = blend.spans(evidence, spans);
    const std::vector<PitchRow> own = joinedWithOnsets(heard, spans, onsets);
    const std::vector<PitchRow> context = neighbourEvidence(own, spans, SpanOf::Note);
    for (std::size_t i = 0; i < own.size(); ++i) {
        PitchHint& hint = hints[order[i]];
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            hint.evidence[pitch] = own[i][pitch] + context[i][pitch];
        hint.evidence.normalise();
        const std::size_t best = hint.evidence.best();
        hint.bestMidi = lowestHeardMidi + static_cast<int>(best);
        hint.listened = evidence.partOf(blend.clearest());
        hint.confidence = isSilence(heard[i]) ? 0 : std::exp(static_cast<double>(hint.evidence[best]));
    }
    return hints;
}

double clarityOf(const std::vector<PitchHint>& hints) {
    constexpr double least = 0.01;
    double sum = 0;
    for (const PitchHint& hint : hints)
        sum += std::log(std::max(hint.confidence, least));
    return hints.empty() ? 0 : sum / static_cast<double>(hints.size());
}

} // namespace earwright
