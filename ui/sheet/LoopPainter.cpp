#include "ui/sheet/LoopPainter.h"

#include "ui/sheet/LoopPill.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

namespace earwright::ui {

namespace {

constexpr double bracketWidth = 2.6;
constexpr double bracketFoot = 7;

} // namespace

void LoopPainter::paintGround(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.box(line);
    const auto fill = [&](const Range<Seconds>& range, const QColor& ground) {
        for (const auto& piece : geometry.segments(range))
            if (piece.line == line)
                painter.fillRect(QRectF(piece.left, box.top(), piece.right - piece.left, box.height()),
                                 ground);
    };
    if (const auto loop = model.loop()) fill(*loop, color(Role::LoopWash));
    if (model.stretch) fill(*model.stretch, color(Role::Ink, 0.09));
}

void LoopPainter::paintBrackets(QPainter& painter, std::size_t line) const {
    const auto loop = model.loop();
    if (!loop) return;
    const QRectF box = geometry.box(line);
    QPen pen(color(Role::Loop), bracketWidth);
    pen.setJoinStyle(Qt::MiterJoin);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    for (const auto& piece : geometry.segments(*loop)) {
        if (piece.line != line) continue;
        const auto bracket = [&](double x, double foot) {
            const QPointF corners[]{
                {x + foot, box.top()}, {x, box.top()}, {x, box.bottom()}, {x + foot, box.bottom()}};
            painter.drawPolyline(corners, 4);
        };
        if (piece.begins) bracket(piece.left, bracketFoot);
        if (piece.ends) bracket(piece.right, -bracketFoot);
    }
}

void LoopPainter::paintPill(QPainter& painter) const {
    const auto pill = LoopPill::on(model, geometry);
    if (!pill) return;
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Loop));
    const double round = pill->outline.height() / 2;
    painter.drawRoundedRect(pill->outline, round, round);
    painter.setFont(font(TextStyle::Small));
    for (const PillStep& step : pill->steps) {
        if (step.chosen) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(color(Role::Page));
            painter.drawRoundedRect(step.place.adjusted(1, 3, -1, -3), round - 3, round - 3);
        }
        painter.setPen(color(step.chosen ? Role::Loop : Role::OnMark));
        const QString number = QString::number(step.percent);
        painter.drawText(step.place, Qt::AlignCenter, step.chosen ? number + QStringLiteral(" %") : number);
    }
    painter.setPen(color(Role::OnMark));
    for (const PillPart& part : pill->parts) {
        painter.drawText(part.place, Qt::AlignCenter, part.text);
        if (!part.inUse) continue;
        const double wide = QFontMetricsF(painter.font()).horizontalAdvance(part.text);
        const double y = part.place.bottom() - 3.5;
        painter.drawLine(QPointF(part.place.center().x() - wide / 2, y),
                         QPointF(part.place.center().x() + wide / 2, y));
    }
}

} // namespace earwright::ui
