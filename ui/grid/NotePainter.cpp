#include "ui/grid/NotePainter.h"

#include "core/study/NoteVoices.h"
#include "ui/grid/GroundPainter.h"
#include "ui/grid/MarkAnswerPainter.h"
#include "ui/grid/PhrasingPainter.h"
#include "ui/theme/Marks.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

HeadShape shapeOf(const GridScene& scene, const Note& note) {
    const CheckedNote* checked = scene.check ? scene.check->note(note.id) : nullptr;
    // A note that is being changed has no verdict any more.
    return checked && checked->midi == note.pitch.midi ? headShapeOf(checked->verdict) : HeadShape::Open;
}

void paintTail(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, const Note& note) {
    const QPointF head = geometry.head(note);
    painter.setPen(QPen(color(Role::Written), tailWidth(note), Qt::SolidLine, Qt::FlatCap));
    // None where it would only be a stub at the head.
    const QPointF end = geometry.tailEnd(note);
    if (end.x() > head.x() + headRadius(note) + 1) painter.drawLine(head, end);
    // A tie where the note sounds on over a bar line, as it would be written.
    painter.setPen(QPen(color(Role::Written), 1.2, Qt::SolidLine, Qt::RoundCap));
    painter.setBrush(Qt::NoBrush);
    const MeterMap& meters = scene.meters;
    const Range<Beats> seen = scene.columns.range();
    const Beats from = std::max(note.onset, seen.begin);
    for (std::int64_t bar = meters.barOf(from) + (from == note.onset ? 1 : 0);
         meters.barStart(bar) < note.end() && meters.barStart(bar) <= seen.end; ++bar) {
        const double x = geometry.x(meters.barStart(bar));
        painter.drawArc(QRectF(x - 9, head.y() - 4, 18, 11), 180 * 16, 180 * 16);
    }
}

void paintDegree(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, const Note& note) {
    const QString degree = degreeText(scene.chords.at(note.onset), note.pitch.midi);
    if (degree.isEmpty()) return;
    QFont lettering = font(TextStyle::Label);
    lettering.setPixelSize(10);
    painter.setFont(lettering);
    painter.setPen(color(Role::Written));
    const QPointF head = geometry.head(note);
    const double bottom = head.y() - headRadius(note) - 1;
    painter.drawText(QRectF(head.x() - 20, bottom - 12, 40, 12), Qt::AlignHCenter | Qt::AlignBottom, degree);
}

void paintNote(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, const Note& note) {
    const double radius = headRadius(note);
    paintTail(painter, scene, geometry, note);
    const bool hasDegree = !degreeText(scene.chords.at(note.onset), note.pitch.midi).isEmpty();
    paintPhrasing(painter, note, geometry, radius, hasDegree, color(Role::Written));
    paintHead(painter, geometry.head(note), radius, shapeOf(scene, note), color(Role::Written),
              cellGround(scene, note.onset, note.pitch.midi));
    paintDegree(painter, scene, geometry, note);
    const SignRoom room{geometry.head(note), radius, hasDegree, isNarrow(note, geometry)};
    const auto paintAnswer = [&](const MarkAnswer& answer) {
        paintMarkAnswer(painter, note, geometry, room, answer, color(Role::Written), color(Role::Page));
    };
    std::ranges::for_each(scene.answersTo(note), paintAnswer);
    if (const auto trill = scene.trillAnswer(note)) paintAnswer(*trill);
}

/// Slurred from the note before, or picked and yet under its slur.
bool isUnderSlur(const Note& note) {
    return note.phrasing.slurred || note.phrasing.pickedInSlur;
}

void paintSlurTo(QPainter& painter, const GridScene& scene, const GridGeometry& geometry, const Note& note) {
    const Note* before = noteBefore(*scene.study, note);
    const auto beside = [&](const Note& each, double side) {
        const double reach = headRadius(each) + 2;
        return geometry.head(each) + QPointF(side * reach * 0.6, reach * 0.8);
    };
    const QPointF to = beside(note, -1);
    const QPointF from = before ? beside(*before, 1) : to - QPointF(14, 0);
    paintSlur(painter, from, to, color(Role::Written));
}

void paintSlideFrom(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
                    const Note& note) {
    const Note* after = noteAfter(*scene.study, note);
    const QPointF start = geometry.head(note);
    const QPointF goal = after ? geometry.head(*after) : start + QPointF(18, -10);
    const QPointF along = goal - start;
    const double length = std::max(1.0, std::hypot(along.x(), along.y()));
    const auto clearOf = [&](const Note& each) { return along / length * (headRadius(each) + 2); };
    // From the end of a long tail it is told where the finger begins to move.
    const bool isLong = geometry.tailEnd(note).x() > start.x() + along.x() / 2;
    const QPointF from = isLong ? QPointF(start.x() + along.x() / 2, start.y()) : start + clearOf(note);
    const QPointF to = after ? goal - clearOf(*after) : goal;
    if (length > headRadius(note) * 2 + 4) paintSlideOn(painter, from, to, color(Role::Written));
}

/// All that is painted for a note: marks reach so far beyond its own place, a slur to the note before and a
/// slide to the one after, however far they are.
QRectF areaOf(const Note& note, const Study& study, const GridGeometry& geometry, double reach) {
    QRectF area = geometry.outline(note);
    if (isUnderSlur(note))
        if (const Note* before = noteBefore(study, note)) area |= geometry.outline(*before);
    if (note.phrasing.slidesToNext)
        if (const Note* after = noteAfter(study, note)) area |= geometry.outline(*after);
    return area.adjusted(-reach, -reach, reach, reach);
}

void paintSelection(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    QPen pen(color(scene.hasFocus ? Role::Ink : Role::Muted), scene.hasFocus ? 1.5 : 1.2, Qt::CustomDashLine,
             Qt::FlatCap);
    pen.setDashPattern({3, 2.5});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    for (const Note& note : scene.study->notes)
        if (scene.isChosen(note.id))
            painter.drawRoundedRect(geometry.outline(note).adjusted(-2, -0.5, 3, 0.5), 6, 6);
}

/// Small arrows where notes lie above or below what is seen.
void paintHiddenNotes(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Written));
    const Range<Beats> bars = scene.columns.range();
    for (const Note& note : scene.study->notes) {
        if (!bars.contains(note.onset)) continue;
        const bool above = geometry.isAbove(note);
        if (!above && !geometry.isBelow(note)) continue;
        const double x = geometry.head(note).x();
        const double edge = above ? cells.top() + 1 : cells.bottom() - 1;
        const double foot =
            above ? cells.top() + GridGeometry::arrowReach : cells.bottom() - GridGeometry::arrowReach;
        const QPointF arrow[] = {{x, edge}, {x - 4, foot}, {x + 4, foot}};
        painter.drawPolygon(arrow, 3);
    }
}

} // namespace

double headRadius(const Note& note) {
    return spacing::headRadius * (0.76 + 0.4 * note.loudness);
}

double tailWidth(const Note& note) {
    return 0.8 + 1.4 * note.loudness;
}

void paintNotes(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
                const QRectF& exposed) {
    painter.save();
    // Slides and grace notes of the first column reach out to the left.
    painter.setClipRect(geometry.cells().adjusted(-gridmargins::beforeFirst, -12, 0, 0), Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    const Range<Beats> bars = scene.columns.range();
    // Marks reach up to a beat.
    const double reach = geometry.widestBeat() + 40;
    for (const Note& note : scene.study->notes) {
        if (!note.range().overlaps(bars)) continue;
        if (!areaOf(note, *scene.study, geometry, reach).intersects(exposed)) continue;
        if (isUnderSlur(note)) paintSlurTo(painter, scene, geometry, note);
        if (note.phrasing.slidesToNext) paintSlideFrom(painter, scene, geometry, note);
        // Half a head over the top row would lie on the marks of help; an arrow stands for it.
        if (!geometry.isAbove(note)) paintNote(painter, scene, geometry, note);
    }
    paintHiddenNotes(painter, scene, geometry);
    paintSelection(painter, scene, geometry);
    painter.restore();
}

} // namespace earwright::ui
