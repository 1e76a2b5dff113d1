#include "core/listening/PitchHint.h"

#include "core/listening/ColourLearning.h"
#include "core/listening/JoinedEvidence.h"
#include "core/listening/MelodyPrior.h"
#include "core/listening/ViewBlend.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

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

/// A passage in the views that hear a line best, by the sound it has in spans of it.
struct HeardLine {
    ViewBlend blend;
    OnsetTrack onsets;
    PassageEvidence evidence;
};

/// Requires: spans in order of time, at least one.
HeardLine heardLine(const PassageEvidence& plain, const std::vector<Range<Seconds>>& spans) {
    ViewBlend blend = surestOf(plain, spans);
    OnsetTrack onsets = blend.onsets(plain);
    const LineColour colour = colourOf(plain, blend, onsets, spans, SpanOf::Note);
    return {std::move(blend), std::move(onsets), plain.colouredBy(colour)};
}

/// Requires: spans in order of time.
std::vector<PitchHint> hintsIn(const HeardLine& line, const std::vector<Range<Seconds>>& spans) {
    const std::vector<PitchRow> heard = line.blend.spans(line.evidence, spans);
    const std::vector<PitchRow> own = joinedWithOnsets(heard, spans, line.onsets);
    const std::vector<PitchRow> context = neighbourEvidence(own, spans, SpanOf::Note);
    std::vector<PitchHint> hints(spans.size());
    for (std::size_t i = 0; i < own.size(); ++i) {
        PitchHint& hint = hints[i];
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
            hint.evidence[pitch] = own[i][pitch] + context[i][pitch];
        hint.evidence.normalise();
        const std::size_t best = hint.evidence.best();
        hint.bestMidi = lowestHeardMidi + static_cast<int>(best);
        hint.listened = line.evidence.partOf(line.blend.clearest());
        hint.confidence = isSilence(heard[i]) ? 0 : std::exp(static_cast<double>(hint.evidence[best]));
    }
    return hints;
}

} // namespace

std::vector<PitchHint> pitchHints(const PassageEvidence& evidence, const std::vector<Range<Seconds>>& asked) {
    std::vector<PitchHint> hints(asked.size());
    if (asked.empty()) return hints;
    const std::vector<std::size_t> order = orderOf(asked);
    const std::vector<Range<Seconds>> spans = inOrder(asked, order);
    const std::vector<PitchHint> found = hintsIn(heardLine(evidence, spans), spans);
    for (std::size_t i = 0; i < found.size(); ++i)
        hints[order[i]] = found[i];
    return hints;
}

PitchHint pitchHintAt(const Range<Seconds>& place, const PassageEvidence& evidence,
                      const std::vector<Range<Seconds>>& line) {
    const std::vector<Range<Seconds>> spans =
        line.empty() ? std::vector<Range<Seconds>>{place} : inOrder(line, orderOf(line));
    return hintsIn(heardLine(evidence, spans), {place}).front();
}

double clarityOf(const std::vector<PitchHint>& hints) {
    constexpr double least = 0.01;
    double sum = 0;
    for (const PitchHint& hint : hints)
        sum += std::log(std::max(hint.confidence, least));
    return hints.empty() ? 0 : sum / static_cast<double>(hints.size());
}

} // namespace earwright
