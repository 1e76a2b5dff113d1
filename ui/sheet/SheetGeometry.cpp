#include "ui/sheet/SheetGeometry.h"

#include <algorithm>
#include <cassert>

namespace earwright::ui {

namespace {

/// What begins a hair before a line's end by ear belongs to the next line, and the same at the other end.
void dropSplinters(std::vector<SheetGeometry::Segment>& pieces) {
    constexpr double splinter = 5;
    const auto isSplinter = [](const SheetGeometry::Segment& piece) {
        return piece.right - piece.left < splinter;
    };
    if (pieces.size() > 1 && isSplinter(pieces.front())) {
        pieces.erase(pieces.begin());
        pieces.front().begins = true;
    }
    if (pieces.size() > 1 && isSplinter(pieces.back())) {
        pieces.pop_back();
        pieces.back().ends = true;
    }
}

} // namespace

SheetMetrics SheetMetrics::filling(double width, double height) {
    constexpr double linesOfABlues = 3;
    SheetMetrics metrics;
    metrics.width = width;
    const double rows = metrics.pillRow + metrics.chordRow + metrics.bracketRow;
    metrics.box =
        std::clamp((height - metrics.topMargin - metrics.headingRow) / linesOfABlues - rows, 100.0, 200.0);
    return metrics;
}

SheetGeometry::SheetGeometry(const Study& study, Seconds duration, const LineLength& lineLength,
                             const SheetMetrics& metrics)
    : list(breakIntoLines(study, duration, lineLength)),
      map(study.beatMap),
      meters(study.meters()),
      length(lineLength),
      sizes(metrics),
      whole(duration) {
    double top = sizes.topMargin;
    for (const SheetLine& line : list) {
        tops.push_back(top);
        top += sizes.pillRow + sizes.chordRow + sizes.box + sizes.bracketRow;
        if (!line.begins.empty()) top += sizes.headingRow;
    }
    tops.push_back(top);
}

double SheetGeometry::height() const {
    return tops.empty() ? 0 : tops.back();
}

QRectF SheetGeometry::lineBand(std::size_t line) const {
    return {0, tops[line], sizes.width, tops[line + 1] - tops[line]};
}

QRectF SheetGeometry::heading(std::size_t line) const {
    const double room = list[line].begins.empty() ? 0 : sizes.headingRow;
    return {sizes.margin, tops[line], sizes.width - 2 * sizes.margin, room};
}

QRectF SheetGeometry::chordRow(std::size_t line) const {
    const QRectF above = heading(line);
    return {above.left(), above.bottom() + sizes.pillRow, above.width(), sizes.chordRow};
}

QRectF SheetGeometry::box(std::size_t line) const {
    const QRectF above = chordRow(line);
    double width = above.width();
    if (list[line].bars) width *= static_cast<double>(list[line].bars->count) / unitsAcross();
    return {above.left(), above.bottom(), width, sizes.box};
}

QRectF SheetGeometry::sounding(std::size_t line) const {
    QRectF part = box(line);
    const double left = std::max(x(line, Seconds(0)), part.left());
    const double right = std::min(x(line, whole), part.right());
    part.setLeft(std::min(left, part.right()));
    part.setRight(std::max(right, part.left()));
    return part;
}

QRectF SheetGeometry::bracketRow(std::size_t line) const {
    const QRectF above = box(line);
    return {above.left(), above.bottom(), above.width(), sizes.bracketRow};
}

double SheetGeometry::unitsAcross() const {
    return map.hasTempo() ? static_cast<double>(length.bars) : length.seconds.value;
}

double SheetGeometry::x(std::size_t line, Seconds time) const {
    const double full = sizes.width - 2 * sizes.margin;
    const SheetLine& at = list[line];
    if (!at.bars) return sizes.margin + full * ratio(time - at.time.begin, length.seconds);
    const double bars = meters.barsAt(map.beatsAt(time)) - static_cast<double>(at.bars->first - 1);
    return sizes.margin + full * bars / unitsAcross();
}

double SheetGeometry::barX(std::size_t line, std::int64_t bar) const {
    assert(list[line].bars);
    const double full = sizes.width - 2 * sizes.margin;
    return sizes.margin + full * static_cast<double>(bar - list[line].bars->first) / unitsAcross();
}

std::size_t SheetGeometry::lineOf(Seconds time) const {
    assert(!list.empty());
    const auto after = std::upper_bound(list.begin() + 1, list.end(), time,
                                        [](Seconds t, const SheetLine& line) { return t < line.time.begin; });
    return static_cast<std::size_t>(after - list.begin()) - 1;
}

std::size_t SheetGeometry::lineAt(double y) const {
    assert(!list.empty());
    const auto after = std::upper_bound(tops.begin() + 1, tops.end() - 1, y);
    return static_cast<std::size_t>(after - tops.begin()) - 1;
}

Seconds SheetGeometry::timeAt(std::size_t line, double place) const {
    const QRectF frame = box(line);
    const double full = sizes.width - 2 * sizes.margin;
    const double share =
        (std::clamp(place, frame.left(), frame.right()) - sizes.margin) / full * unitsAcross();
    const SheetLine& at = list[line];
    const Seconds time =
        at.bars ? map.secondsAt(meters.beatsAtBars(static_cast<double>(at.bars->first - 1) + share))
                : at.time.begin + Seconds(share);
    return std::clamp(time, Seconds(0), whole);
}

Seconds SheetGeometry::timeAt(const QPointF& point) const {
    return timeAt(lineAt(point.y()), point.x());
}

std::vector<SheetGeometry::Segment> SheetGeometry::segments(const Range<Seconds>& range) const {
    std::vector<Segment> pieces;
    if (list.empty() || range.isEmpty()) return pieces;
    for (std::size_t line = lineOf(range.begin); line < list.size(); ++line) {
        const QRectF frame = box(line);
        if (list[line].time.begin >= range.end) break;
        const double left = std::clamp(x(line, range.begin), frame.left(), frame.right());
        const double right = std::clamp(x(line, range.end), frame.left(), frame.right());
        if (right <= left) continue;
        const bool begins = range.begin >= list[line].time.begin;
        const bool ends = range.end <= list[line].time.end;
        pieces.push_back({line, left, right, begins, ends});
    }
    dropSplinters(pieces);
    return pieces;
}

Seconds SheetGeometry::reach(std::size_t line, double place, double pixels) const {
    return timeAt(line, place + pixels) - timeAt(line, place - pixels);
}

} // namespace earwright::ui
