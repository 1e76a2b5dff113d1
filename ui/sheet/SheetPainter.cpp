#include "ui/sheet/SheetPainter.h"

#include "ui/sheet/ChordPainter.h"
#include "ui/sheet/HeadingNames.h"
#include "ui/sheet/LoopPainter.h"
#include "ui/sheet/ProposalPainter.h"
#include "ui/sheet/SoundPainter.h"
#include "ui/sheet/WrittenPainter.h"
#include "ui/theme/PassageText.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double thinLine = 1;
constexpr double playheadReach = 4;
constexpr double markFoot = 5;
/// Beside what is said at the head of a bar.
constexpr double numberRoom = 36;
/// The handle of a mark: a shoe under its line, with an arrow to either side.
constexpr double handleWidth = 22;
constexpr double handleHeight = 12;
constexpr double handleArrow = 3.5;
/// A held instant.
constexpr double heldRing = 8;
constexpr double heldDot = 4;

QString tr(const char* text) {
    return QCoreApplication::translate("ChorusSheet", text);
}

} // namespace

void SheetPainter::paint(QPainter& painter, const QRectF& exposed) const {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(exposed, color(Role::Paper));
    if (geometry.lines().empty()) return;
    const std::size_t last = geometry.lineAt(exposed.bottom());
    for (std::size_t line = geometry.lineAt(exposed.top()); line <= last; ++line)
        paintLine(painter, line);
    LoopPainter(model, geometry).paintPill(painter);
}

void SheetPainter::paintLine(QPainter& painter, std::size_t line) const {
    const QRectF page = geometry.sounding(line);
    painter.fillRect(page, color(Role::Page));
    const LoopPainter loop(model, geometry);
    loop.paintGround(painter, line);
    painter.setPen(QPen(color(Role::Rule), thinLine));
    painter.drawLine(page.topLeft(), page.topRight());
    painter.drawLine(page.bottomLeft(), page.bottomRight());
    paintHeading(painter, line);
    if (geometry.lines()[line].bars) {
        paintBars(painter, line);
        ChordPainter(model, geometry).paint(painter, line);
    } else {
        paintSeconds(painter, line);
    }
    SoundPainter(model, geometry).paint(painter, line);
    paintMarks(painter, line);
    ProposalPainter(model, geometry).paint(painter, line);
    WrittenPainter(model, geometry).paint(painter, line);
    loop.paintBrackets(painter, line);
}

QString SheetPainter::barsText(const Study& study, const Range<Seconds>& range) {
    if (!study.beatMap.hasTempo()) return lengthText(range.length());
    const MeterMap meters = study.meters();
    const std::int64_t first = meters.nearestBar(study.beatMap.beatsAt(range.begin));
    const std::int64_t last = std::max(meters.nearestBar(study.beatMap.beatsAt(range.end)) - 1, first);
    return ui::barsText(first, last);
}

void SheetPainter::paintHeading(QPainter& painter, std::size_t line) const {
    const auto write = [&](TextStyle style, Role role, const QString& text, const QRectF& area) {
        painter.setFont(font(style));
        painter.setPen(color(role));
        painter.drawText(area, Qt::AlignLeft | Qt::AlignVCenter, text);
    };
    for (const HeadingName& each : headingNames(model, geometry, line)) {
        write(TextStyle::Title, Role::Ink, each.name, each.nameArea);
        write(TextStyle::Small, Role::Muted, each.bars, each.barsArea);
    }
}

void SheetPainter::paintBars(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.sounding(line);
    const BarRun bars = *geometry.lines()[line].bars;
    const MeterMap meters = model.study->meters();
    const double barWidth = geometry.barX(line, bars.first + 1) - geometry.barX(line, bars.first);
    painter.setFont(font(TextStyle::Label));
    for (std::int64_t bar = bars.first; bar < bars.first + bars.count; ++bar) {
        const double left = geometry.barX(line, bar);
        if (left + barWidth <= box.left() || left >= box.right()) continue;
        QPen dotted(color(Role::Rule), thinLine, Qt::DashLine);
        dotted.setDashPattern({2, 4});
        painter.setPen(dotted);
        const int beats = meters.at(bar).beatsPerBar / meters.at(bar).unitsPerCount();
        for (int beat = 1; beat < beats; ++beat) {
            const double x = left + barWidth * beat / beats;
            if (x <= box.left() || x >= box.right()) continue;
            painter.drawLine(QPointF(x, box.top() + 4), QPointF(x, box.bottom() - 4));
        }
        painter.setPen(QPen(color(Role::Muted), thinLine));
        if (left >= box.left()) painter.drawLine(QPointF(left, box.top()), QPointF(left, box.bottom()));
        if (bar < 1) continue;
        painter.drawText(QRectF(left, box.top() + 3, barWidth - 6, 16), Qt::AlignRight | Qt::AlignTop,
                         QString::number(bar));
        paintSigns(painter, bar, QRectF(left + 6, box.top() + 3, barWidth - numberRoom, 16));
    }
    painter.setPen(QPen(color(Role::Muted), thinLine));
    painter.drawLine(box.topRight(), box.bottomRight());
}

void SheetPainter::paintSigns(QPainter& painter, std::int64_t bar, const QRectF& room) const {
    const QString signs = signsAt(*model.study, bar);
    if (signs.isEmpty()) return;
    const QFontMetricsF metrics(painter.font());
    const QString shown = metrics.elidedText(signs, Qt::ElideRight, std::max(room.width(), 8.0));
    // On a ground of its own, so that it is read over the level.
    painter.fillRect(QRectF(room.left() - 3, room.top(), metrics.horizontalAdvance(shown) + 6, room.height()),
                     color(Role::Page));
    painter.setPen(color(Role::Ink));
    painter.drawText(room, Qt::AlignLeft | Qt::AlignTop, shown);
    painter.setPen(QPen(color(Role::Muted), thinLine));
}

void SheetPainter::paintSeconds(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.sounding(line);
    const Range<Seconds> time = geometry.lines()[line].time;
    QPen dotted(color(Role::Rule), thinLine, Qt::DashLine);
    dotted.setDashPattern({2, 4});
    painter.setPen(dotted);
    for (double second = std::ceil(time.begin.value) + 1; second < time.end.value; second += 1) {
        const double x = geometry.x(line, Seconds(second));
        if (x >= box.right()) break;
        painter.drawLine(QPointF(x, box.top() + 4), QPointF(x, box.bottom() - 4));
    }
    painter.setFont(font(TextStyle::Label));
    painter.setPen(color(Role::Muted));
    const QRectF row = geometry.chordRow(line);
    painter.drawText(row, Qt::AlignLeft | Qt::AlignVCenter, lengthText(time.begin));
    // Without bars a chorus or section may begin anywhere on a line.
    for (const Span& span : geometry.lines()[line].begins) {
        const double x = geometry.x(line, span.range.begin);
        painter.setPen(QPen(color(Role::Ink), thinLine));
        painter.drawLine(QPointF(x, row.top() + 6), QPointF(x, box.bottom()));
    }
}

void SheetPainter::paintMarks(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.box(line);
    const Range<Seconds> time = geometry.lines()[line].time;
    const bool lastLine = line + 1 == geometry.lines().size();
    const MeterMap meters = model.study->meters();
    for (const BeatMark& mark : model.study->beatMap.marks()) {
        const bool here = time.contains(mark.time) || (lastLine && mark.time == time.end);
        if (!here) continue;
        const double x = geometry.x(line, mark.time);
        const bool bar = meters.isBarLine(mark.position);
        painter.setPen(QPen(color(Role::Ink), bar ? spacing::barLine : thinLine));
        painter.drawLine(QPointF(x, bar ? box.top() : box.center().y()), QPointF(x, box.bottom() + markFoot));
    }
    if (!model.draggedMark || !time.contains(*model.draggedMark)) return;
    const double x = geometry.x(line, *model.draggedMark);
    painter.setPen(QPen(color(Role::Ink), spacing::hair, Qt::DashLine));
    painter.drawLine(QPointF(x, box.top() - markFoot), QPointF(x, box.bottom() + markFoot));
}

void SheetPainter::paintPlayhead(QPainter& painter) const {
    if (geometry.lines().empty()) return;
    const std::size_t line = geometry.lineOf(model.heard);
    const QRectF box = geometry.box(line);
    const double x = geometry.x(line, model.heard);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Ink), spacing::hair));
    painter.drawLine(QPointF(x, box.top() - markFoot), QPointF(x, box.bottom() + markFoot));
}

void SheetPainter::paintChosen(QPainter& painter, const QRectF& exposed) const {
    if (model.selected.empty() || geometry.lines().empty()) return;
    painter.setRenderHint(QPainter::Antialiasing);
    const WrittenPainter written(model, geometry);
    const std::size_t last = geometry.lineAt(exposed.bottom());
    for (std::size_t line = geometry.lineAt(exposed.top()); line <= last; ++line)
        written.paintChosen(painter, line);
}

void SheetPainter::paintHeld(QPainter& painter) const {
    if (!model.held || geometry.lines().empty()) return;
    const std::size_t line = geometry.lineOf(*model.held);
    const QRectF box = geometry.box(line);
    const QString word = tr("held");
    painter.setFont(font(TextStyle::Label));
    const double room = painter.fontMetrics().horizontalAdvance(word) + 2 * spacing::tight;
    const QPointF centre(geometry.x(line, *model.held), box.center().y());
    const bool isWordAfter = centre.x() + heldRing + room <= box.right();
    painter.setRenderHint(QPainter::Antialiasing);
    // On a ground of its own, so that it is read over level and notes.
    painter.setBrush(color(Role::Page));
    painter.setPen(QPen(color(Role::Recording), spacing::barLine));
    const QRectF label(centre.x() - heldRing - (isWordAfter ? 0 : room), centre.y() - heldRing,
                       2 * heldRing + room, 2 * heldRing);
    painter.drawRoundedRect(label, heldRing, heldRing);
    painter.drawEllipse(centre, heldRing, heldRing);
    painter.drawText(isWordAfter ? label.adjusted(2 * heldRing, 0, 0, 0)
                                 : label.adjusted(0, 0, -2 * heldRing, 0),
                     Qt::AlignCenter, word);
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Recording));
    painter.drawEllipse(centre, heldDot, heldDot);
}

void SheetPainter::paintMarkHandle(QPainter& painter) const {
    if (!model.markInReach || *model.markInReach >= model.study->beatMap.marks().size()) return;
    const Seconds time = model.draggedMark.value_or(model.study->beatMap.marks()[*model.markInReach].time);
    const QRectF shoe = handleArea(geometry, time);
    if (shoe.isEmpty()) return;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Ink));
    painter.drawRoundedRect(shoe, handleHeight / 2, handleHeight / 2);
    painter.setBrush(color(Role::OnMark));
    for (const double side : {-1.0, 1.0}) {
        const QPointF tip(shoe.center().x() + side * (handleWidth / 2 - 3), shoe.center().y());
        const QPointF arrow[]{tip, tip + QPointF(-side * handleArrow, -handleArrow),
                              tip + QPointF(-side * handleArrow, handleArrow)};
        painter.drawPolygon(arrow, 3);
    }
}

QRectF SheetPainter::handleArea(const SheetGeometry& geometry, Seconds mark) {
    if (geometry.lines().empty()) return {};
    const std::size_t line = geometry.lineOf(mark);
    const double x = geometry.x(line, mark);
    return {x - handleWidth / 2, geometry.box(line).bottom() - 1, handleWidth, handleHeight};
}

QRectF SheetPainter::playheadArea(const SheetGeometry& geometry, Seconds heard) {
    if (geometry.lines().empty()) return {};
    const std::size_t line = geometry.lineOf(heard);
    const QRectF box = geometry.box(line);
    const double x = geometry.x(line, heard);
    return {x - playheadReach, box.top() - markFoot - 2, 2 * playheadReach, box.height() + 2 * markFoot + 4};
}

} // namespace earwright::ui
