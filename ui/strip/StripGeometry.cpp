#include "ui/strip/StripGeometry.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double sideMargin = 12; // room for the brackets of a loop at the very start or end
constexpr double nameHeight = 15;
constexpr double phraseHeight = 9;
constexpr double grip = 6;

} // namespace

StripGeometry::StripGeometry(const QSizeF& size, Seconds duration)
    : frame(QPointF(0, 0), size), whole(duration) {}

QRectF StripGeometry::nameRow() const {
    return {frame.left(), frame.top() + 2, frame.width(), nameHeight};
}

QRectF StripGeometry::phraseRow() const {
    return {frame.left(), frame.bottom() - phraseHeight, frame.width(), phraseHeight};
}

QRectF StripGeometry::levelRow() const {
    return {frame.left(), nameRow().bottom(), frame.width(), phraseRow().top() - nameRow().bottom()};
}

double StripGeometry::left() const {
    return frame.left() + sideMargin;
}

double StripGeometry::span() const {
    return std::max(frame.width() - 2 * sideMargin, 1.0);
}

double StripGeometry::x(Seconds time) const {
    return whole > Seconds(0) ? left() + span() * ratio(time, whole) : left();
}

Seconds StripGeometry::timeAt(double place) const {
    return whole * std::clamp((place - left()) / span(), 0.0, 1.0);
}

std::optional<StripGeometry::LoopEdge> StripGeometry::edgeAt(double place, const Range<Seconds>& loop) const {
    const double toStart = std::abs(place - x(loop.begin));
    const double toEnd = std::abs(place - x(loop.end));
    if (std::min(toStart, toEnd) > grip) return std::nullopt;
    // Of a loop too short to have two edges for the hand, the outer side decides.
    if (toStart == toEnd) return place < x(loop.begin) ? LoopEdge::Start : LoopEdge::End;
    return toStart < toEnd ? LoopEdge::Start : LoopEdge::End;
}

} // namespace earwright::ui
