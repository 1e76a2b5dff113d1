#include "ui/sheet/SheetLines.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace earwright::ui {

namespace {

/// The bar whose line is nearest to a time.
std::int64_t nearestBar(const Study& study, Seconds time) {
    return study.meters().nearestBar(study.beatMap.beatsAt(time));
}

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

/// Bars at which a line has to start, bar 1 among them.
std::set<std::int64_t> forcedStarts(const Study& study) {
    std::set<std::int64_t> starts{1};
    for (const Span& span : study.spans)
        if (startsLine(span)) starts.insert(nearestBar(study, span.range.begin));
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

    const std::set<std::int64_t> starts = forcedStarts(study);
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
        if (time.end > Seconds(0)) lines.push_back({BarRun{bar, end - bar}, time, {}});
        bar = end;
    }
    for (const Span& span : study.spans)
        if (startsLine(span))
            for (SheetLine& line : lines)
                if (line.bars->first == nearestBar(study, span.range.begin)) line.begins.push_back(span);
    return lines;
}

} // namespace earwright::ui
