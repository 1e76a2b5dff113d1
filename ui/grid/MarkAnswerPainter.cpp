#include "ui/grid/MarkAnswerPainter.h"

#include "ui/theme/Marks.h"

#include <algorithm>
#include <optional>

namespace earwright::ui {

namespace {

constexpr double answerRadius = 3.6;
constexpr double gap = answerRadius + 1.5;

std::optional<PhrasingKind> signOf(PhrasingMark mark) {
    switch (mark) {
    case PhrasingMark::SlideIn:
    case PhrasingMark::SlideOut:
        return PhrasingKind::Slide;
    case PhrasingMark::Trill:
        return PhrasingKind::Trill;
    case PhrasingMark::Vibrato:
        return PhrasingKind::Vibrato;
    case PhrasingMark::Accent:
        return PhrasingKind::Accent;
    case PhrasingMark::Bend:
        return PhrasingKind::Bend;
    case PhrasingMark::SlideToNext:
        return PhrasingKind::SlideOn;
    case PhrasingMark::Fall:
        return PhrasingKind::Fall;
    case PhrasingMark::Scoop:
        return PhrasingKind::Scoop;
    case PhrasingMark::Turn:
        return PhrasingKind::Turn;
    case PhrasingMark::Mordent:
        return PhrasingKind::Mordent;
    default:
        return std::nullopt;
    }
}

/// Signs that stand over or under the head; the others are drawn beside it.
std::optional<QPointF> placeAtSign(PhrasingMark mark, const Note& note, const SignRoom& room) {
    const auto kind = signOf(mark);
    if (!kind) return std::nullopt;
    for (const PlacedSign& sign : placeSigns(note.phrasing, room))
        if (sign.kind == *kind) return QPointF(sign.box.right() + gap, sign.box.center().y());
    return std::nullopt;
}

/// Where the wave of a trill or a vibrato over the tail ends (PhrasingPainter).
QPointF waveEnd(const Note& note, const GridGeometry& geometry, const SignRoom& room, double below) {
    constexpr double shortestWave = 13;
    const double right = std::max(geometry.tailEnd(note).x(), room.head.x() + room.radius + shortestWave);
    return {right + gap, room.head.y() + below};
}

} // namespace

QPointF answerPlace(PhrasingMark mark, const Note& note, const GridGeometry& geometry, const SignRoom& room) {
    constexpr double slide = 9;
    constexpr double graceStep = 9;
    if (const auto place = placeAtSign(mark, note, room)) return *place;
    const Phrasing& phrasing = note.phrasing;
    const double left = room.head.x() - room.radius;
    switch (mark) {
    case PhrasingMark::SlideIn: {
        const double down = phrasing.slideIn == SlideFrom::Below ? 1 : -1;
        return {left - slide - gap, room.head.y() + (room.radius + slide) * down};
    }
    case PhrasingMark::SlideOut: {
        const double down = phrasing.slideOut == SlideTo::Down ? 1 : -1;
        return geometry.tailEnd(note) + QPointF(slide + gap, slide * down);
    }
    case PhrasingMark::SlideToNext:
    case PhrasingMark::Fall:
        return geometry.tailEnd(note) + QPointF(slide + gap, slide);
    case PhrasingMark::Scoop:
        return {left - slide - gap, room.head.y() + room.radius + slide};
    case PhrasingMark::Grace: {
        const auto count = static_cast<double>(phrasing.graceNotes.size());
        const double row =
            phrasing.graceNotes.empty() ? room.head.y() : geometry.y(phrasing.graceNotes.front());
        return {left - 2 - count * graceStep - gap, row};
    }
    case PhrasingMark::Trill:
        return waveEnd(note, geometry, room, -4.5);
    case PhrasingMark::Vibrato:
        return waveEnd(note, geometry, room, 5);
    case PhrasingMark::Slur:
        return {left, room.head.y() + room.radius + gap + 2};
    default:
        return {left - gap - 3, room.head.y()};
    }
}

void paintMarkAnswer(QPainter& painter, const Note& note, const GridGeometry& geometry, const SignRoom& room,
                     const MarkAnswer& answer, const QColor& colour, const QColor& ground) {
    paintHead(painter, answerPlace(answer.mark, note, geometry, room), answerRadius,
              headShapeOf(answer.verdict), colour, ground);
}

} // namespace earwright::ui
