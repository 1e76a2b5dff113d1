#include "ui/strip/StripPainter.h"

#include "ui/strip/StripLabels.h"
#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double columnWidth = 3;
constexpr double strokeWidth = 1.4;
constexpr double bracketFoot = 4;

} // namespace

void StripPainter::paint(QPainter& painter, const QRectF& exposed) const {
    painter.setRenderHint(QPainter::Antialiasing);
    paintPage(painter);
    if (model.duration <= Seconds(0)) return;
    paintLevels(painter, exposed);
    paintPhrases(painter, exposed);
    paintNames(painter, exposed);
    paintLooseEnds(painter);
    paintLoop(painter);
    paintPlayhead(painter);
}

void StripPainter::paintPage(QPainter& painter) const {
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.setBrush(color(Role::Page));
    painter.drawRoundedRect(geometry.page().adjusted(0.5, 0.5, -0.5, -0.5), spacing::corner, spacing::corner);
    if (const auto loop = model.loop()) {
        const QRectF inside(geometry.x(loop->begin), 1, geometry.x(loop->end) - geometry.x(loop->begin),
                            geometry.page().height() - 2);
        painter.fillRect(inside, color(Role::LoopWash));
    }
}

void StripPainter::paintLevels(QPainter& painter, const QRectF& exposed) const {
    if (!model.level) return;
    const QRectF row = geometry.levelRow();
    const double first = geometry.x(Seconds(0));
    const double last = geometry.x(model.duration);
    QPen pen(color(Role::Recording), strokeWidth);
    pen.setCapStyle(Qt::RoundCap);
    painter.setPen(pen);
    const double from =
        first + columnWidth * std::floor((std::max(exposed.left(), first) - first) / columnWidth);
    for (double x = from; x < std::min(exposed.right() + columnWidth, last); x += columnWidth) {
        const auto level = model.level({geometry.timeAt(x), geometry.timeAt(x + columnWidth)});
        if (!level) break;
        const double half = std::clamp(static_cast<double>(*level), 0.02, 1.0) * row.height() / 2;
        const double middle = x + columnWidth / 2;
        painter.drawLine(QPointF(middle, row.center().y() - half), QPointF(middle, row.center().y() + half));
    }
}

void StripPainter::paintNames(QPainter& painter, const QRectF& exposed) const {
    painter.setFont(font(TextStyle::Label));
    const QFontMetricsF metrics(painter.font());
    for (const StripLabel& label : layLabels(*model.study, geometry)) {
        if (label.x > exposed.right() || label.x + label.room < exposed.left()) continue;
        painter.setPen(QPen(color(Role::Ink), spacing::barLine));
        painter.drawLine(QPointF(label.x, 4), QPointF(label.x, geometry.page().bottom() - 4));
        const QRectF room(label.x + spacing::tight, geometry.nameRow().top(), label.room - 2 * spacing::tight,
                          geometry.nameRow().height());
        if (room.width() < metrics.horizontalAdvance(QStringLiteral("…"))) continue;
        painter.setPen(color(Role::Muted));
        painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter,
                         metrics.elidedText(label.text, Qt::ElideRight, room.width()));
    }
}

void StripPainter::paintPhrases(QPainter& painter, const QRectF& exposed) const {
    const double y = geometry.phraseRow().center().y();
    painter.setPen(QPen(color(Role::Ink), 1));
    for (const Span& span : model.study->spans) {
        if (span.kind != SpanKind::Phrase) continue;
        const double left = geometry.x(span.range.begin) + 0.5;
        const double right = std::max(geometry.x(span.range.end) - 0.5, left + 1);
        if (left > exposed.right() || right < exposed.left()) continue;
        const QPointF corners[]{{left, y - 3}, {left, y}, {right, y}, {right, y - 3}};
        painter.drawPolyline(corners, 4);
    }
}

void StripPainter::paintLooseEnds(QPainter& painter) const {
    for (const LooseEnd& end : model.study->looseEnds)
        if (!end.done)
            paintFlag(painter, {geometry.x(end.time), geometry.levelRow().top() + 9}, 9,
                      color(Role::LooseEnd));
}

void StripPainter::paintLoop(QPainter& painter) const {
    const auto loop = model.loop();
    if (!loop) return;
    const double top = 3;
    const double bottom = geometry.page().bottom() - 3;
    QPen pen(color(Role::Loop), 2);
    pen.setJoinStyle(Qt::MiterJoin);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    const double left = geometry.x(loop->begin);
    const double right = geometry.x(loop->end);
    const QPointF opening[]{
        {left + bracketFoot, top}, {left, top}, {left, bottom}, {left + bracketFoot, bottom}};
    const QPointF closing[]{
        {right - bracketFoot, top}, {right, top}, {right, bottom}, {right - bracketFoot, bottom}};
    painter.drawPolyline(opening, 4);
    painter.drawPolyline(closing, 4);
}

void StripPainter::paintPlayhead(QPainter& painter) const {
    const double x = geometry.x(model.heard);
    painter.setPen(QPen(color(Role::Ink), spacing::barLine));
    painter.drawLine(QPointF(x, 1), QPointF(x, geometry.page().bottom() - 1));
    const QPointF head[]{{x - 4, 1}, {x + 4, 1}, {x, 6}};
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Ink));
    painter.drawPolygon(head, 3);
}

} // namespace earwright::ui
