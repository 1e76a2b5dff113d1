#include "ui/grid/SignPainter.h"

#include "ui/theme/Type.h"

#include <QPainterPath>

namespace earwright::ui {

namespace {

void paintStaccato(QPainter& painter, const QRectF& box, const QColor& colour) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawEllipse(box.center(), 1.7, 1.7);
}

void paintTenuto(QPainter& painter, const QRectF& box) {
    painter.drawLine(QPointF(box.left() + 1.5, box.center().y()),
                     QPointF(box.right() - 1.5, box.center().y()));
}

void paintAccent(QPainter& painter, const QRectF& box) {
    const double left = box.left() + 1.5;
    const QPointF sign[] = {
        {left, box.top() + 0.5}, {box.right() - 1.5, box.center().y()}, {left, box.bottom() - 0.5}};
    painter.drawPolyline(sign, 3);
}

/// A hook that dips under the head and rises into it.
void paintScoop(QPainter& painter, const QRectF& box) {
    QPainterPath path(QPointF(box.left() + 1, box.top() + 2.5));
    path.cubicTo(QPointF(box.left() + 1, box.bottom() + 1), QPointF(box.right() - 1.5, box.bottom() + 2),
                 QPointF(box.right() - 1, box.top()));
    painter.drawPath(path);
}

/// Away to the right and ever steeper down.
void paintFall(QPainter& painter, const QRectF& box) {
    QPainterPath path(QPointF(box.center().x(), box.top()));
    path.quadTo(QPointF(box.right() - 1, box.top()), QPointF(box.right() - 1, box.bottom()));
    painter.drawPath(path);
}

/// The sign of a stroke with the pick: an upside-down square U with a heavy top (common practice).
void paintPicked(QPainter& painter, const QRectF& box, const QColor& colour) {
    const QRectF inner = box.adjusted(2, 0.5, -2, 0);
    painter.fillRect(QRectF(inner.topLeft(), QSizeF(inner.width(), 2.6)), colour);
    painter.drawLine(inner.topLeft() + QPointF(0.6, 0), inner.bottomLeft() + QPointF(0.6, 0));
    painter.drawLine(inner.topRight() - QPointF(0.6, 0), inner.bottomRight() - QPointF(0.6, 0));
}

void paintWord(QPainter& painter, const QRectF& box, const QString& word, bool slanted) {
    QFont lettering = font(TextStyle::Label);
    lettering.setPixelSize(10);
    lettering.setItalic(slanted);
    lettering.setWeight(QFont::DemiBold);
    painter.setFont(lettering);
    painter.drawText(box.adjusted(-4, -3, 4, 3), Qt::AlignCenter, word);
}

void paintTurn(QPainter& painter, const QRectF& box, Turn turn) {
    const QPointF middle = box.center();
    const double half = box.width() / 2 - 0.8;
    const double high = box.height() / 2;
    const double up = turn == Turn::FromAbove ? 1 : -1;
    QPainterPath path(middle + QPointF(-half, high * 0.4 * up));
    path.cubicTo(middle + QPointF(-half, -high * 1.5 * up), middle + QPointF(-half * 0.35, -high * 1.5 * up),
                 middle);
    path.cubicTo(middle + QPointF(half * 0.35, high * 1.5 * up), middle + QPointF(half, high * 1.5 * up),
                 middle + QPointF(half, -high * 0.4 * up));
    painter.drawPath(path);
}

/// A short zigzag with slanted, heavy strokes; the lower neighbour has a line through it (common practice).
void paintMordent(QPainter& painter, const QRectF& box, Mordent mordent) {
    const double y = box.center().y();
    const double step = (box.width() - 2) / 4;
    QPolygonF zigzag;
    for (int i = 0; i <= 4; ++i)
        zigzag << QPointF(box.left() + 1 + i * step, y + (i % 2 == 0 ? 1.7 : -1.7));
    painter.drawPolyline(zigzag);
    if (mordent == Mordent::Lower)
        painter.drawLine(QPointF(box.center().x(), box.top()), QPointF(box.center().x(), box.bottom()));
}

void paintArrowHead(QPainter& painter, QPointF tip, double down, const QColor& colour) {
    painter.save();
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    const QPointF head[] = {tip, tip + QPointF(-2.2, -3.6 * down), tip + QPointF(2.2, -3.6 * down)};
    painter.drawPolygon(head, 3);
    painter.restore();
}

/// How far, and under it an arrow that does what the string does.
void paintBend(QPainter& painter, const QRectF& box, const Bend& bend, const QColor& colour) {
    painter.setPen(QPen(colour, 1.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const double top = box.top() + 10;
    const double bottom = box.bottom() - 0.5;
    const double left = box.left() + 2.5;
    const bool isStruckHigh = bend.shape == BendShape::PrebentHeld || bend.shape == BendShape::PrebentDown;
    const bool isLetDown = bend.shape == BendShape::UpAndDown || bend.shape == BendShape::PrebentDown;
    QPainterPath path(QPointF(left, bottom));
    if (isStruckHigh)
        path.lineTo(QPointF(left, top));
    else
        path.quadTo(QPointF(left + 3.2, bottom), QPointF(left + 3.2, top));
    if (isLetDown) path.quadTo(QPointF(left + 6.2, top), QPointF(left + 6.2, bottom - 2));
    painter.drawPath(path);
    if (isLetDown)
        paintArrowHead(painter, {left + 6.2, bottom}, 1, colour);
    else
        paintArrowHead(painter, path.currentPosition() - QPointF(0, 2), -1, colour);
    QFont lettering = font(TextStyle::Label);
    lettering.setPixelSize(9);
    painter.setFont(lettering);
    painter.drawText(QRectF(box.left() - 4, box.top() - 2, box.width() + 8, 10), Qt::AlignCenter,
                     bendText(bend));
}

void paintShortSlide(QPainter& painter, const QRectF& box, const Phrasing& phrasing) {
    const double middle = box.center().x();
    const bool under =
        phrasing.slideIn ? phrasing.slideIn == SlideFrom::Below : phrasing.slideOut == SlideTo::Down;
    const double near = under ? box.top() : box.bottom();
    const double far = under ? box.bottom() : box.top();
    const double aside = phrasing.slideIn ? -1 : 1;
    painter.drawLine(QPointF(middle + aside * 0.8, near), QPointF(middle + aside * 5, far));
}

} // namespace

void paintWave(QPainter& painter, double left, double right, double y) {
    constexpr double halfWave = 2.7;
    QPainterPath wave(QPointF(left, y));
    double up = -1;
    for (double x = left; x + halfWave <= right + 0.2; x += halfWave, up = -up)
        wave.cubicTo(QPointF(x + halfWave * 0.4, y + up * 3), QPointF(x + halfWave * 0.6, y + up * 3),
                     QPointF(x + halfWave, y));
    painter.drawPath(wave);
}

QString bendText(const Bend& bend) {
    static const QString parts[] = {QString(), QStringLiteral("¼"), QStringLiteral("½"), QStringLiteral("¾")};
    const int whole = bend.quarterTones / 4;
    return (whole > 0 ? QString::number(whole) : QString()) + parts[bend.quarterTones % 4];
}

void paintSign(QPainter& painter, const PlacedSign& sign, const Phrasing& phrasing, const QColor& colour) {
    using enum PhrasingKind;
    const QRectF& box = sign.box;
    painter.save();
    painter.setPen(QPen(colour, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    switch (sign.kind) {
    case Staccato:
        paintStaccato(painter, box, colour);
        break;
    case Tenuto:
        paintTenuto(painter, box);
        break;
    case Accent:
        paintAccent(painter, box);
        break;
    case Scoop:
        paintScoop(painter, box);
        break;
    case Fall:
        paintFall(painter, box);
        break;
    case HammerPull:
        paintWord(painter, box,
                  phrasing.slurBy == SlurBy::HammerOn ? QStringLiteral("H") : QStringLiteral("P"), false);
        break;
    case PickedInSlur:
        paintPicked(painter, box, colour);
        break;
    case LetRing:
        paintWord(painter, box, QStringLiteral("l.v."), true);
        break;
    case PhrasingKind::Turn:
        paintTurn(painter, box, *phrasing.turn);
        break;
    case PhrasingKind::Mordent:
        paintMordent(painter, box, *phrasing.mordent);
        break;
    case Trill:
        paintWord(painter, box, QStringLiteral("tr"), true);
        break;
    case Vibrato:
        paintWave(painter, box.left(), box.right(), box.center().y());
        break;
    case PhrasingKind::Bend:
        paintBend(painter, box, *phrasing.bend, colour);
        break;
    case Slide:
        paintShortSlide(painter, box, phrasing);
        break;
    default:
        break;
    }
    painter.restore();
}

} // namespace earwright::ui
