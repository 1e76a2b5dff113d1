#include "ui/sheet/SheetTool.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double dragFrom = 4; // a hand that clicks moves less than this
constexpr double barCatch = 5; // pixels
constexpr double onsetCatch = 12;

Range<Seconds> between(Seconds a, Seconds b) {
    return {std::min(a, b), std::max(a, b)};
}

bool movesLoop(SheetPart part) {
    return part == SheetPart::LoopStart || part == SheetPart::LoopEnd;
}

bool choosesStretch(SheetPart part) {
    return part == SheetPart::Ground || part == SheetPart::Chords;
}

} // namespace

Seconds nearestOnset(const std::vector<Seconds>& onsets, Seconds time, Seconds reach) {
    const auto after = std::lower_bound(onsets.begin(), onsets.end(), time);
    Seconds best = time;
    Seconds distance = reach;
    const auto consider = [&](Seconds onset) {
        const Seconds away(std::abs(onset.value - time.value));
        if (away > distance) return;
        best = onset;
        distance = away;
    };
    if (after != onsets.end()) consider(*after);
    if (after != onsets.begin()) consider(*(after - 1));
    return best;
}

void SheetTool::press(const SheetHit& hit, const QPointF& point, SheetModel& model) {
    active = true;
    dragging = false;
    start = hit;
    pressedAt = point;
    stretchBefore = model.stretch;
    fixed = hit.place;
    if (const auto loop = model.loop(); loop && movesLoop(hit.part))
        fixed = hit.part == SheetPart::LoopStart ? loop->end : loop->begin;
}

Seconds SheetTool::caught(const QPointF& point, Catch catching, const SheetModel& model,
                          const SheetGeometry& geometry) const {
    const std::size_t line = geometry.lineAt(point.y());
    const Seconds time = geometry.timeAt(line, point.x());
    if (catching == Catch::Onsets)
        return nearestOnset(model.onsets, time, geometry.reach(line, point.x(), onsetCatch / 2));
    const auto& bars = geometry.lines()[line].bars;
    if (!bars || start.part == SheetPart::Mark) return time;
    for (std::int64_t bar = bars->first; bar <= bars->first + bars->count; ++bar)
        if (std::abs(geometry.barX(line, bar) - point.x()) <= barCatch)
            return std::clamp(model.study->beatMap.seconds(model.study->meters().barStart(bar)), Seconds(0),
                              geometry.duration());
    return time;
}

void SheetTool::move(const QPointF& point, Catch catching, SheetModel& model, const SheetGeometry& geometry) {
    if (!active) return;
    if (!dragging) {
        const QPointF way = point - pressedAt;
        if (std::hypot(way.x(), way.y()) < dragFrom) return;
        dragging = true;
        if (choosesStretch(start.part)) fixed = caught(pressedAt, catching, model, geometry);
    }
    const Seconds here = caught(point, catching, model, geometry);
    if (movesLoop(start.part)) model.draggedLoop = between(fixed, here);
    if (choosesStretch(start.part)) model.stretch = between(fixed, here);
    if (start.part == SheetPart::Mark) model.draggedMark = here;
}

SheetWish SheetTool::release(const QPointF& point, Catch catching, SheetModel& model,
                             const SheetGeometry& geometry) {
    if (!active) return {};
    move(point, catching, model, geometry);
    const SheetWish wish = dragging ? dragged(model) : clicked();
    active = false;
    model.draggedLoop.reset();
    model.draggedMark.reset();
    return wish;
}

void SheetTool::cancel(SheetModel& model) {
    if (!active) return;
    active = false;
    model.draggedLoop.reset();
    model.draggedMark.reset();
    model.stretch = stretchBefore;
}

SheetWish SheetTool::clicked() const {
    switch (start.part) {
    case SheetPart::PillStep:
        return PlayAt{start.percent};
    case SheetPart::Phrase:
        return ChooseSpan{*start.span};
    case SheetPart::Heading:
        return ChooseSpan{*start.span};
    case SheetPart::Ground:
    case SheetPart::LooseEnd:
    case SheetPart::LoopStart:
    case SheetPart::LoopEnd:
    case SheetPart::Mark:
    case SheetPart::Chords:
        return HearFrom{start.place};
    case SheetPart::Pill:
    case SheetPart::PillClimb:
    case SheetPart::PillGap:
    case SheetPart::PillTrade:
    case SheetPart::Nothing:
        break;
    }
    return {};
}

SheetWish SheetTool::dragged(const SheetModel& model) const {
    if (model.draggedLoop && !model.draggedLoop->isEmpty()) return LoopOver{*model.draggedLoop};
    if (model.draggedMark) return MoveMarkTo{start.mark, *model.draggedMark};
    if (choosesStretch(start.part) && model.stretch && !model.stretch->isEmpty())
        return ChooseStretch{model.stretch};
    return {};
}

} // namespace earwright::ui
