#include "ui/sheet/WrittenPainter.h"

#include "core/study/PlayedTime.h"
#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPainterPath>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr double headRadius = 4.2;
constexpr double ghostRadius = 3.2;
constexpr double tailWidth = 1.6;
constexpr double bracketDepth = 8;
constexpr double flagHeight = 13;
constexpr double flagText = 150;
/// Below the bar numbers.
constexpr double flagTop = 17;

HeadShape shapeOf(const SheetModel& model, NoteId note) {
    if (const auto verdict = model.verdicts.find(note); verdict != model.verdicts.end())
        return headShapeOf(verdict->second);
    return HeadShape::Open;
}

} // namespace

void WrittenPainter::paint(QPainter& painter, std::size_t line) const {
    paintNotes(painter, line);
    paintPhrases(painter, line);
    paintLooseEnds(painter, line);
}

std::optional<Range<Beats>> WrittenPainter::beatsOf(std::size_t line) const {
    if (!geometry.lines()[line].bars) return std::nullopt;
    const BarRun bars = *geometry.lines()[line].bars;
    const MeterMap meters = model.study->meters();
    return Range<Beats>{meters.barStart(bars.first), meters.barStart(bars.first + bars.count)};
}

void WrittenPainter::paintNotes(QPainter& painter, std::size_t line) const {
    const auto covered = beatsOf(line);
    if (!covered) return;
    for (const Note& note : model.study->notes)
        if (note.range().overlaps(*covered)) paintNote(painter, line, note);
}

WrittenPainter::Placed WrittenPainter::placed(std::size_t line, const Note& note) const {
    const QRectF box = geometry.box(line);
    const Range<Seconds> time = playedTime(*model.study, note.range());
    const double onset = geometry.x(line, time.begin);
    Placed at;
    at.isHeadHere = onset > box.left() - 0.5;
    at.head = {onset + (note.phrasing.ghosted ? ghostRadius : headRadius), heights.y(box, note.pitch.midi)};
    at.left = at.isHeadHere ? onset + headRadius : box.left();
    at.right = std::clamp(geometry.x(line, time.end) - 3, at.left, std::max(at.left, box.right()));
    return at;
}

void WrittenPainter::paintNote(QPainter& painter, std::size_t line, const Note& note) const {
    const Placed at = placed(line, note);
    painter.setPen(QPen(color(Role::Written), tailWidth));
    painter.drawLine(QPointF(at.left, at.head.y()), QPointF(at.right, at.head.y()));
    if (!at.isHeadHere) return;
    const double radius = note.phrasing.ghosted ? ghostRadius : headRadius;
    paintHead(painter, at.head, radius, shapeOf(model, note.id), color(Role::Written), color(Role::Page));
}

void WrittenPainter::paintChosen(QPainter& painter, std::size_t line) const {
    const auto covered = beatsOf(line);
    if (!covered) return;
    QPen pen(color(Role::Ink), 1.2, Qt::CustomDashLine, Qt::FlatCap);
    pen.setDashPattern({3, 2.5});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    const double beside = headRadius + 3;
    // Few are chosen, and this is asked with every frame: what is not is passed by without counting beats.
    for (const Note& note : model.study->notes) {
        if (!model.selected.contains(note.id) || !note.range().overlaps(*covered)) continue;
        const Placed at = placed(line, note);
        if (!at.isHeadHere) continue;
        painter.drawRoundedRect(QRectF(at.head, QPointF(std::max(at.right, at.head.x()), at.head.y()))
                                    .adjusted(-beside, -beside, beside, beside),
                                beside, beside);
    }
}

void WrittenPainter::paintPhrases(QPainter& painter, std::size_t line) const {
    for (const Span& span : model.study->spans) {
        if (span.kind != SpanKind::Phrase) continue;
        const auto pieces = geometry.segments(span.range);
        const auto widest = std::max_element(pieces.begin(), pieces.end(), [](const auto& a, const auto& b) {
            return a.right - a.left < b.right - b.left;
        });
        for (auto piece = pieces.begin(); piece != pieces.end(); ++piece)
            if (piece->line == line) paintBracket(painter, span, *piece, piece == widest);
    }
}

void WrittenPainter::paintBracket(QPainter& painter, const Span& phrase, const SheetGeometry::Segment& piece,
                                  bool named) const {
    const QRectF row = geometry.bracketRow(piece.line);
    const double top = row.top() + 4;
    const double bottom = top + bracketDepth;
    const double left = piece.left + 1;
    const double right = std::max(piece.right - 1, left + 2);
    const double round = std::min(bracketDepth, (right - left) / 2);
    QPainterPath path;
    if (piece.begins) {
        path.moveTo(left, top);
        path.quadTo(left, bottom, left + round, bottom);
    } else {
        path.moveTo(left, bottom);
    }
    if (piece.ends) {
        path.lineTo(right - round, bottom);
        path.quadTo(right, bottom, right, top);
    } else {
        path.lineTo(right, bottom);
    }
    const bool inGrid = model.phrase == phrase.id;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(color(inGrid ? Role::Ink : Role::Muted), inGrid ? 2.0 : 1.2));
    painter.drawPath(path);
    if (!named) return;
    painter.setFont(font(TextStyle::Label));
    painter.setPen(color(inGrid ? Role::Ink : Role::Muted));
    const QRectF room(left, bottom + 1, right - left, row.bottom() - bottom - 1);
    painter.drawText(room, Qt::AlignHCenter | Qt::AlignTop,
                     QFontMetricsF(painter.font())
                         .elidedText(QString::fromStdString(phrase.name), Qt::ElideRight, room.width()));
}

void WrittenPainter::paintLooseEnds(QPainter& painter, std::size_t line) const {
    const QRectF box = geometry.box(line);
    painter.setFont(font(TextStyle::Label));
    for (const LooseEnd& end : model.study->looseEnds) {
        if (end.done || !geometry.lines()[line].time.contains(end.time)) continue;
        const double x = geometry.x(line, end.time);
        const double foot = box.top() + flagTop + flagHeight;
        paintFlag(painter, {x, foot}, flagHeight, color(Role::LooseEnd));
        const QRectF room(x + 15, foot - flagHeight - 2, std::min(flagText, box.right() - x - 16),
                          flagHeight + 2);
        if (room.width() < flagHeight) continue;
        painter.setPen(color(Role::LooseEnd));
        painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter,
                         QFontMetricsF(painter.font())
                             .elidedText(QString::fromStdString(end.text), Qt::ElideRight, room.width()));
    }
}

} // namespace earwright::ui
