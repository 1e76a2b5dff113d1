#include "ui/sheet/SheetLines.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace earwright::ui {

namespace {

bool startsLine(const Span& span) {
    return span.kind != SpanKind::Phrase;
}

std::vector<SheetLine> linesOfSeconds(const Study& study, Seconds duration, Seconds length) {
    std::vector<SheetLine> lines;
    const auto count = static_cast<std::int64_t>(std::ceil(ratio(duration, length)));
    for (std::int64_t i = 0; i < std::max<std::int64_t>(count, 1); ++i)
        lines.push_back(
            {std::nullopt, {length * static_cast<double>(i), length * static_cast<double>(i + 1)}, {}});
    for (const Span& span : study.spans)
        if (startsLine(span))
            for (SheetLine& line : lines)
                if (line.time.contains(span.range.begin)) line.begins.push_back(span);
    return lines;
}

/// Choruses and sections by the bar they begin with: the one whose line is nearest.
std::multimap<std::int64_t, Span> spansByBar(const Study& study, const MeterMap& meters) {
    std::multimap<std::int64_t, Span> spans;
    for (const Span& span : study.spans)
        if (startsLine(span)) spans.emplace(meters.nearestBar(study.beatMap.beatsAt(span.range.begin)), span);
    return spans;
}

/// Bars at which a line has to start, bar 1 among them.
std::set<std::int64_t> forcedStarts(const std::multimap<std::int64_t, Span>& spans) {
    std::set<std::int64_t> starts{1};
    for (const auto& [bar, span] : spans)
        starts.insert(bar);
    return starts;
}

} // namespace

std::vector<SheetLine> breakIntoLines(const Study& study, Seconds duration, const LineLength& length) {
    if (!study.beatMap.hasTempo()) return linesOfSeconds(study, duration, length.seconds);
    const MeterMap meters = study.meters();
    const double barsBefore = meters.barsAt(study.beatMap.beatsAt(Seconds(0)));
    const double barsToEnd = meters.barsAt(study.beatMap.beatsAt(duration));
    const std::int64_t firstBar = std::llround(std::floor(barsBefore)) + 1;
    const std::int64_t endBar = std::max<std::int64_t>(std::llround(std::ceil(barsToEnd)) + 1, firstBar + 1);

    const std::multimap<std::int64_t, Span> spans = spansByBar(study, meters);
    const std::set<std::int64_t> starts = forcedStarts(spans);
    // Before the first forced start lines are counted back from it, so that it stands at a line's start.
    const std::int64_t anchor = *starts.begin();
    const std::int64_t linesBefore =
        anchor > firstBar ? (anchor - firstBar + length.bars - 1) / length.bars : 0;
    std::vector<SheetLine> lines;
    std::int64_t bar = std::min(anchor - linesBefore * length.bars, firstBar);
    while (bar < endBar) {
        const auto next = starts.upper_bound(bar);
        std::int64_t end = bar + length.bars;
        if (next != starts.end()) end = std::min(end, *next);
        const Range<Seconds> time = study.beatMap.seconds({meters.barStart(bar), meters.barStart(end)});
        if (time.end > Seconds(0)) {
            lines.push_back({BarRun{bar, end - bar}, time, {}});
            const auto [first, last] = spans.equal_range(bar);
            for (auto span = first; span != last; ++span)
                lines.back().begins.push_back(span->second);
        }
        bar = end;
    }
    return lines;
}

} // namespace earwright::ui
