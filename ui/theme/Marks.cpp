#include "ui/theme/Marks.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace earwright::ui {

namespace {

/// A pen whose dots divide the ring evenly, so that no two of them run together where it closes.
QPen dottedPen(const QColor& colour, double radius, double width) {
    const double around = 2 * std::numbers::pi * radius / width;
    const double dots = std::max(6.0, std::round(around / 2.1));
    QPen pen(colour, width, Qt::CustomDashLine, Qt::RoundCap);
    pen.setDashPattern({0.01, around / dots - 0.01});
    return pen;
}

void paintRing(QPainter& painter, QPointF centre, double radius, const QPen& pen, const QColor& ground) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ground);
    painter.drawEllipse(centre, radius, radius);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(centre, radius, radius);
}

} // namespace

HeadShape headShapeOf(Verdict verdict) {
    switch (verdict) {
    case Verdict::Unclear:
        return HeadShape::Dotted;
    case Verdict::Contradicted:
        return HeadShape::Struck;
    case Verdict::Supported:
        break;
    }
    return HeadShape::Full;
}

void paintHead(QPainter& painter, QPointF centre, double radius, HeadShape shape, const QColor& colour,
               const QColor& ground) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double width = std::max(1.2, radius * 0.36);
    const double ring = radius - width / 2;
    switch (shape) {
    case HeadShape::Full:
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawEllipse(centre, radius, radius);
        break;
    case HeadShape::Dotted:
        paintRing(painter, centre, ring, dottedPen(colour, ring, width), ground);
        break;
    case HeadShape::Open:
        paintRing(painter, centre, ring, QPen(colour, width), ground);
        break;
    case HeadShape::Struck: {
        const QPen pen(colour, width, Qt::SolidLine, Qt::RoundCap);
        paintRing(painter, centre, ring, pen, ground);
        const double reach = radius * 1.1;
        painter.drawLine(centre + QPointF(-reach, reach), centre + QPointF(reach, -reach));
        break;
    }
    }
    painter.restore();
}

void paintFlag(QPainter& painter, QPointF foot, double height, const QColor& colour, bool settled) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF top = foot - QPointF(0, height);
    const double width = height * 0.85;
    const double drop = height * 0.6;
    QPainterPath cloth(top);
    cloth.lineTo(top + QPointF(width, 0));
    cloth.lineTo(top + QPointF(width * 0.72, drop / 2));
    cloth.lineTo(top + QPointF(width, drop));
    cloth.lineTo(top + QPointF(0, drop));
    cloth.closeSubpath();
    painter.setPen(QPen(colour, std::max(1.0, height * 0.1), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(settled ? QBrush(Qt::NoBrush) : QBrush(colour));
    painter.drawPath(cloth);
    painter.drawLine(foot, top);
    painter.restore();
}

void paintOnset(QPainter& painter, QPointF tip, double size, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    const QPointF corners[] = {tip, tip + QPointF(-size * 0.55, -size), tip + QPointF(size * 0.55, -size)};
    painter.drawPolygon(corners, 3);
    painter.restore();
}

} // namespace earwright::ui
