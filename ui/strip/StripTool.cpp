#include "ui/strip/StripTool.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double dragFrom = 4; // a hand that clicks moves less than this

} // namespace

void StripTool::press(double x, const StripGeometry& geometry, const std::optional<Range<Seconds>>& loop) {
    pressed = true;
    pressedX = x;
    const auto edge = loop ? geometry.edgeAt(x, *loop) : std::nullopt;
    dragging = false;
    if (edge)
        fixed = *edge == StripGeometry::LoopEdge::Start ? loop->end : loop->begin;
    else
        fixed = geometry.timeAt(x);
}

std::optional<Range<Seconds>> StripTool::move(double x, const StripGeometry& geometry) {
    if (!pressed) return std::nullopt;
    if (std::abs(x - pressedX) >= dragFrom) dragging = true;
    if (!dragging) return std::nullopt;
    return between(fixed, geometry.timeAt(x));
}

StripTool::Wish StripTool::release(double x, const StripGeometry& geometry) {
    Wish wish;
    if (const auto loop = move(x, geometry))
        wish.loop = *loop;
    else if (pressed)
        wish.seek = geometry.timeAt(x);
    pressed = false;
    if (wish.loop && wish.loop->isEmpty()) wish.loop.reset();
    return wish;
}

Range<Seconds> StripTool::between(Seconds a, Seconds b) const {
    return {std::min(a, b), std::max(a, b)};
}

} // namespace earwright::ui
