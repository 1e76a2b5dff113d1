#include "ui/grid/PhrasingPainter.h"

#include "ui/grid/SignPainter.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double strokeWidth = 1.6;
constexpr double slideReach = 9;
constexpr double graceRadius = 3;
constexpr double graceStep = 9;

void paintSlideIn(QPainter& painter, QPointF head, double radius, SlideFrom from) {
    const double down = from == SlideFrom::Below ? 1 : -1;
    const double near = radius * 0.6;
    painter.drawLine(head + QPointF(-near, near * down),
                     head + QPointF(-near - slideReach, (near + slideReach) * down));
}

void paintSlideOut(QPainter& painter, QPointF end, SlideTo to) {
    const double down = to == SlideTo::Down ? 1 : -1;
    painter.drawLine(end, end + QPointF(slideReach * 0.9, slideReach * 0.9 * down));
}

/// Small heads before the note, each in the row of its pitch, led to the head by a thin line.
void paintGraceNotes(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius,
                     const QColor& colour) {
    const QPointF head = geometry.head(note);
    const std::vector<int>& pitches = note.phrasing.graceNotes;
    const auto count = static_cast<double>(pitches.size());
    QPainterPath line;
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        const QPointF place(head.x() - radius - 2 - (count - static_cast<double>(i) - 0.5) * graceStep,
                            geometry.y(pitches[i]));
        i == 0 ? line.moveTo(place) : line.lineTo(place);
        painter.save();
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawEllipse(place, graceRadius, graceRadius);
        painter.restore();
    }
    line.lineTo(head);
    painter.save();
    painter.setPen(QPen(colour, 1));
    painter.drawPath(line);
    painter.restore();
}

/// A wavy line over the tail, and a small ring in the row of the note it alternates with.
void paintTrill(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius) {
    const QPointF head = geometry.head(note);
    const double left = head.x() + radius + 1;
    const double right = std::max(geometry.tailEnd(note).x(), left + 12);
    const double y = head.y() - 4.5;
    constexpr double halfWave = 3;
    QPainterPath wave(QPointF(left, y));
    double up = -1;
    for (double x = left; x + halfWave <= right; x += halfWave, up = -up)
        wave.quadTo(QPointF(x + halfWave / 2, y + up * 3), QPointF(x + halfWave, y));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(wave);
    const double other = geometry.y(note.pitch.midi + *note.phrasing.trill);
    painter.drawEllipse(QPointF(left + 4, other), 2.4, 2.4);
    painter.setPen(QPen(painter.pen().color(), 1));
    painter.drawLine(QPointF(left + 4, y - 2), QPointF(left + 4, other + 2.4));
}

void paintGhost(QPainter& painter, QPointF head, double radius) {
    const double reach = radius + 3.5;
    const QRectF around(head.x() - reach, head.y() - reach, 2 * reach, 2 * reach);
    constexpr int sixteenthsOfADegree = 16;
    painter.setBrush(Qt::NoBrush);
    painter.drawArc(around, 140 * sixteenthsOfADegree, 80 * sixteenthsOfADegree);
    painter.drawArc(around, -40 * sixteenthsOfADegree, 80 * sixteenthsOfADegree);
}

/// Away from the end of the tail, ever steeper down.
void paintFall(QPainter& painter, QPointF end) {
    QPainterPath path(end);
    path.quadTo(end + QPointF(slideReach, 0), end + QPointF(slideReach, slideReach * 1.2));
    painter.drawPath(path);
}

/// Under the tail, so that a trill has its place over it.
void paintVibrato(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius) {
    const QPointF head = geometry.head(note);
    const double left = head.x() + radius + 2;
    paintWave(painter, left, std::max(geometry.tailEnd(note).x(), left + 11), head.y() + 5);
}

/// What stands beside the head, where there is room for it.
void paintBeside(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius) {
    const Phrasing& phrasing = note.phrasing;
    if (phrasing.slideIn) paintSlideIn(painter, geometry.head(note), radius, *phrasing.slideIn);
    if (phrasing.slideOut) paintSlideOut(painter, geometry.tailEnd(note), *phrasing.slideOut);
    if (phrasing.fall) paintFall(painter, geometry.tailEnd(note));
    if (phrasing.trill) paintTrill(painter, note, geometry, radius);
    if (phrasing.vibrato) paintVibrato(painter, note, geometry, radius);
}

} // namespace

bool isNarrow(const Note& note, const GridGeometry& geometry) {
    constexpr double roomForASign = 28;
    return geometry.x(note.end()) - geometry.x(note.onset) < roomForASign;
}

void paintPhrasing(QPainter& painter, const Note& note, const GridGeometry& geometry, double radius,
                   bool hasDegree, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, strokeWidth, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    const Phrasing& phrasing = note.phrasing;
    const QPointF head = geometry.head(note);
    const bool narrow = isNarrow(note, geometry);
    if (!phrasing.graceNotes.empty()) paintGraceNotes(painter, note, geometry, radius, colour);
    if (phrasing.ghosted) paintGhost(painter, head, radius);
    if (!narrow) paintBeside(painter, note, geometry, radius);
    for (const PlacedSign& sign : placeSigns(phrasing, {head, radius, hasDegree, narrow}))
        paintSign(painter, sign, phrasing, colour);
    painter.restore();
}

void paintSlideOn(QPainter& painter, QPointF from, QPointF to, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, strokeWidth, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(from, to);
    painter.restore();
}

void paintSlur(QPainter& painter, QPointF from, QPointF to, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, 1.4, Qt::SolidLine, Qt::RoundCap));
    painter.setBrush(Qt::NoBrush);
    // It bows away from the straight line between the heads, on its lower side.
    const QPointF along = to - from;
    const double length = std::max(1.0, std::hypot(along.x(), along.y()));
    const QPointF down = QPointF(-along.y(), along.x()) / length;
    const QPointF bow = down * std::clamp(length * 0.28, 6.0, 16.0);
    QPainterPath arc(from);
    arc.cubicTo(from + along * 0.2 + bow, from + along * 0.8 + bow, to);
    painter.drawPath(arc);
    painter.restore();
}

} // namespace earwright::ui
