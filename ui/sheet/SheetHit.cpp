#include "ui/sheet/SheetHit.h"

#include "ui/sheet/HeadingNames.h"
#include "ui/sheet/LoopPill.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace earwright::ui {

namespace {

constexpr double grip = 5;
/// Marks are taken by a foot as wide as a thumbnail: this far to either side, and from inside the box to
/// under it.
constexpr double markGrip = 8;
constexpr double footInside = 22;
constexpr double footUnder = 14;
constexpr double flagWidth = 14;
constexpr double flagTop = 14;
constexpr double flagHeight = 20;

/// Marks are taken hold of by their feet, so that the rest of a bar line is free for clicks.
bool nearFoot(const QRectF& box, double y) {
    return y > box.bottom() - footInside && y < box.bottom() + footUnder;
}

bool hitPill(SheetHit& hit, const SheetModel& model, const SheetGeometry& geometry, const QPointF& point) {
    const auto pill = LoopPill::on(model, geometry);
    if (!pill || !pill->outline.contains(point)) return false;
    hit.part = SheetPart::Pill;
    if (const auto percent = pill->stepAt(point)) {
        hit.part = SheetPart::PillStep;
        hit.percent = *percent;
    }
    if (const PillPart* part = pill->partAt(point)) hit.part = part->part;
    return true;
}

bool hitLoopEdge(SheetHit& hit, const SheetModel& model, const SheetGeometry& geometry,
                 const QPointF& point) {
    const auto loop = model.loop();
    const QRectF box = geometry.box(hit.line);
    if (!loop || point.y() < box.top() - grip || point.y() > box.bottom() + grip) return false;
    for (const auto& piece : geometry.segments(*loop)) {
        if (piece.line != hit.line) continue;
        const double toStart = piece.begins ? std::abs(point.x() - piece.left) : grip + 1;
        const double toEnd = piece.ends ? std::abs(point.x() - piece.right) : grip + 1;
        if (std::min(toStart, toEnd) > grip) continue;
        hit.part = toStart < toEnd ? SheetPart::LoopStart : SheetPart::LoopEnd;
        return true;
    }
    return false;
}

bool hitFlag(SheetHit& hit, const SheetModel& model, const SheetGeometry& geometry, const QPointF& point) {
    const QRectF box = geometry.box(hit.line);
    for (const LooseEnd& end : model.study->looseEnds) {
        if (end.done || !geometry.lines()[hit.line].time.contains(end.time)) continue;
        const double x = geometry.x(hit.line, end.time);
        if (!QRectF(x - 2, box.top() + flagTop, flagWidth, flagHeight).contains(point)) continue;
        hit.part = SheetPart::LooseEnd;
        hit.looseEnd = end.id;
        return true;
    }
    return false;
}

/// The mark whose line, drawn on from box to foot, the point is beside.
std::optional<std::size_t> markBeside(const SheetModel& model, const SheetGeometry& geometry,
                                      std::size_t line, const QPointF& point) {
    const Seconds reach = geometry.reach(line, point.x(), markGrip);
    const auto index = model.study->beatMap.markNear(geometry.timeAt(line, point.x()), reach);
    if (!index) return std::nullopt;
    const double x = geometry.x(line, model.study->beatMap.marks()[*index].time);
    return std::abs(x - point.x()) <= markGrip ? index : std::nullopt;
}

bool hitMark(SheetHit& hit, const SheetModel& model, const SheetGeometry& geometry, const QPointF& point) {
    if (!nearFoot(geometry.box(hit.line), point.y())) return false;
    const auto index = markBeside(model, geometry, hit.line, point);
    if (!index) return false;
    hit.part = SheetPart::Mark;
    hit.mark = *index;
    return true;
}

/// The innermost phrase whose bracket covers the time.
std::optional<SpanId> phraseAt(const Study& study, Seconds place) {
    const Span* phrase = study.spanAt(SpanKind::Phrase, place);
    return phrase ? std::optional(phrase->id) : std::nullopt;
}

/// The last name that begins before the point; the first one for a point before it.
SpanId spanInHeading(const SheetModel& model, const SheetGeometry& geometry, std::size_t line, double x) {
    const std::vector<HeadingName> names = headingNames(model, geometry, line);
    SpanId span = names.front().span;
    for (const HeadingName& each : names)
        if (each.nameArea.left() <= x) span = each.span;
    return span;
}

void hitRow(SheetHit& hit, const SheetModel& model, const SheetGeometry& geometry, const QPointF& point) {
    if (geometry.box(hit.line).contains(point)) {
        hit.part = SheetPart::Ground;
    } else if (geometry.bracketRow(hit.line).contains(point)) {
        hit.span = phraseAt(*model.study, hit.place);
        if (hit.span) hit.part = SheetPart::Phrase;
    } else if (geometry.heading(hit.line).contains(point)) {
        hit.part = SheetPart::Heading;
        hit.span = spanInHeading(model, geometry, hit.line, point.x());
    } else if (hit.bar && geometry.chordRow(hit.line).contains(point)) {
        hit.part = SheetPart::Chords;
    }
}

} // namespace

std::optional<std::size_t> markUnder(const SheetModel& model, const SheetGeometry& geometry,
                                     const QPointF& point) {
    if (geometry.lines().empty()) return std::nullopt;
    const std::size_t line = geometry.lineAt(point.y());
    const QRectF box = geometry.box(line);
    if (point.y() < box.top() || point.y() > box.bottom() + footUnder) return std::nullopt;
    return markBeside(model, geometry, line, point);
}

SheetHit hitAt(const SheetModel& model, const SheetGeometry& geometry, const QPointF& point) {
    SheetHit hit;
    if (geometry.lines().empty()) return hit;
    hit.line = geometry.lineAt(point.y());
    hit.place = geometry.timeAt(hit.line, point.x());
    if (const auto& bars = geometry.lines()[hit.line].bars) {
        const double width = geometry.barX(hit.line, bars->first + 1) - geometry.barX(hit.line, bars->first);
        const auto into =
            static_cast<std::int64_t>(std::floor((point.x() - geometry.box(hit.line).left()) / width));
        hit.bar = bars->first + std::clamp<std::int64_t>(into, 0, bars->count - 1);
    }
    if (hitPill(hit, model, geometry, point) || hitFlag(hit, model, geometry, point)) return hit;
    // A loop mostly begins on a bar line: under the box its mark is in reach, in the box the loop's edge.
    if (point.y() > geometry.box(hit.line).bottom() && hitMark(hit, model, geometry, point)) return hit;
    if (hitLoopEdge(hit, model, geometry, point) || hitMark(hit, model, geometry, point)) return hit;
    hitRow(hit, model, geometry, point);
    return hit;
}

} // namespace earwright::ui
