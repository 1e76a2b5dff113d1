#include "ui/grid/GroundPainter.h"

#include "core/music/NoChord.h"
#include "ui/theme/PassageText.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace earwright::ui {

namespace {

/// For the bar's number, beside what is said at its head.
constexpr double numberRoom = 24;

/// A line that covers whole pixels, so that hairlines are equally dark everywhere.
double crisp(double coordinate) {
    return std::floor(coordinate) + 0.5;
}

bool isBlackKey(int midi) {
    const int key = pitchClassOf(midi);
    return key == 1 || key == 3 || key == 6 || key == 8 || key == 10;
}

bool isPlainRow(const ChordStretch* chord, int midi) {
    return chord && chord->canBeRead() ? chord->isTone(midi) : !isBlackKey(midi);
}

void paintRows(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
               const QRectF& exposed) {
    const QRectF cells = geometry.cells() & exposed;
    if (cells.isEmpty()) return;
    const int highest = geometry.midiAt(cells.top()).value_or(highestMidi);
    const int lowest = geometry.midiAt(cells.bottom()).value_or(lowestMidi);
    for (const ChordStretch& chord : scene.chords.stretches()) {
        const double left = geometry.x(chord.range.begin);
        const double width = geometry.x(chord.range.end) - left;
        for (int midi = lowest; midi <= highest; ++midi) {
            const QRectF row = geometry.row(midi);
            painter.fillRect(QRectF(left, row.top(), width, row.height()),
                             color(isPlainRow(&chord, midi) ? Role::Page : Role::Shade));
        }
    }
}

void paintCursorColumn(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const GridColumn& column = scene.columns[scene.columns.indexAt(scene.cursor.place)];
    const QRectF cells = geometry.cells();
    const double left = geometry.x(column.range.begin);
    painter.fillRect(QRectF(left, cells.top(), geometry.x(column.range.end) - left, cells.height()),
                     color(Role::Ink, 0.05));
}

void paintColumnLines(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    const QPen beatLine(color(Role::Rule), 1);
    QPen divisionLine(color(Role::Rule), 1, Qt::CustomDashLine, Qt::FlatCap);
    divisionLine.setDashPattern({2, 3});
    for (const GridColumn& column : scene.columns) {
        const double x = crisp(geometry.x(column.range.begin));
        painter.setPen(column.range.begin == column.beat ? beatLine : divisionLine);
        painter.drawLine(QPointF(x, cells.top()), QPointF(x, cells.bottom()));
    }
}

void paintBarLines(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    const Range<Beats> range = scene.columns.range();
    painter.setPen(QPen(color(Role::Ink), spacing::barLine));
    const MeterMap& meters = scene.meters;
    for (std::int64_t bar = meters.barOf(range.begin); meters.barStart(bar) <= range.end; ++bar) {
        const double x = crisp(geometry.x(meters.barStart(bar)));
        painter.drawLine(QPointF(x, cells.top() - 1), QPointF(x, cells.bottom()));
    }
}

/// Broken: what stands before it is not on the page.
void paintPickupLine(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const auto& pickup = scene.study->page.pickup;
    const Range<Beats> range = scene.columns.range();
    if (!pickup || !range.contains(-*pickup) || scene.meters.isBarLine(-*pickup)) return;
    QPen pen(color(Role::Ink), spacing::barLine, Qt::CustomDashLine, Qt::FlatCap);
    pen.setDashPattern({4, 3});
    painter.setPen(pen);
    const double x = crisp(geometry.x(-*pickup));
    const QRectF cells = geometry.cells();
    painter.drawLine(QPointF(x, cells.top() - 1), QPointF(x, cells.bottom()));
}

void paintChords(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF lane = geometry.chordLane();
    for (const ChordStretch& chord : scene.chords.stretches()) {
        if (!chord.symbol) continue;
        const bool readable = isRead(*chord.symbol);
        QFont lettering = font(TextStyle::ChordSmall);
        lettering.setItalic(!readable);
        painter.setFont(lettering);
        painter.setPen(color(readable && chord.beginsHere ? Role::Ink : Role::Muted));
        const double left = std::max(geometry.x(chord.range.begin), lane.left()) + 2;
        const QRectF place(left, lane.top(), geometry.x(chord.range.end) - left - 2, lane.height());
        const QString text = QString::fromStdString(toString(*chord.symbol));
        painter.drawText(
            place, Qt::AlignLeft | Qt::AlignVCenter,
            painter.fontMetrics().elidedText(text, Qt::ElideRight, static_cast<int>(place.width())));
    }
}

/// Where numbers and signs of bars begin: under the arrows that tell of notes above, where there are any. All
/// of them, so that they stay in one line.
double topOfNumbers(const GridScene& scene, const GridGeometry& geometry) {
    const Range<Beats> bars = scene.columns.range();
    const bool hasArrows =
        std::any_of(scene.study->notes.begin(), scene.study->notes.end(),
                    [&](const Note& note) { return bars.contains(note.onset) && geometry.isAbove(note); });
    return geometry.cells().top() + (hasArrows ? GridGeometry::arrowReach : spacing::hair);
}

/// In the upper right corner of each bar, as on the chorus sheet.
void paintBarNumbers(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const MeterMap& meters = scene.meters;
    const double top = topOfNumbers(scene, geometry);
    painter.setFont(font(TextStyle::Label));
    painter.setPen(color(Role::Muted));
    const Range<Beats> range = scene.columns.range();
    for (std::int64_t number = meters.barOf(range.begin); meters.barStart(number) < range.end; ++number) {
        const double right = geometry.x(meters.barStart(number + 1)) - spacing::tight - 1;
        if (number < 0) continue;
        painter.drawText(QRectF(right - 40, top, 40, GridGeometry::rowHeight),
                         Qt::AlignRight | Qt::AlignVCenter,
                         number == 0 ? barText(number) : QString::number(number));
        const double left = geometry.x(meters.barStart(number)) + spacing::tight + 1;
        const double room = right - left - numberRoom;
        const QString signs = painter.fontMetrics().elidedText(signsAt(*scene.study, number), Qt::ElideRight,
                                                               static_cast<int>(room));
        painter.drawText(QRectF(left, top, room, GridGeometry::rowHeight), Qt::AlignLeft | Qt::AlignVCenter,
                         signs);
    }
}

/// Written with a number under a bracket: neither halves of halves nor, where three units are counted as one,
/// halves of those. Two or four parts of such a dotted beat are dotted values on the page, and no tuplet
/// either.
bool isTuplet(BeatDivision division, int unitsPerCount) {
    const auto parts = static_cast<unsigned>(division);
    const unsigned odd = parts >> std::countr_zero(parts);
    return odd != 1 && !(odd == 3 && unitsPerCount == 3);
}

/// A bracket over the beat, open where its number stands, as a page has it.
void paintTupletBracket(QPainter& painter, const QRectF& beat) {
    constexpr double numberHalf = 9;
    constexpr double hook = 4;
    const double left = beat.left() + 3.5;
    const double right = beat.right() - 3.5;
    const double middle = beat.center().x();
    const double y = crisp(beat.center().y());
    const QPointF before[] = {{left, y + hook}, {left, y}, {middle - numberHalf, y}};
    const QPointF after[] = {{middle + numberHalf, y}, {right, y}, {right, y + hook}};
    painter.drawPolyline(before, 3);
    painter.drawPolyline(after, 3);
}

void paintRuler(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const MeterMap& meters = scene.meters;
    const Beats current = meters.countStart(scene.cursor.place);
    for (Beats beat = scene.columns.range().begin; beat < scene.columns.range().end;
         beat = meters.nextCount(beat)) {
        QFont lettering = font(TextStyle::Label);
        if (beat == current) lettering.setWeight(QFont::Bold);
        painter.setFont(lettering);
        painter.setPen(color(beat == current ? Role::Ink : Role::Muted));
        const BeatDivision division = scene.study->divisionOf(beat);
        painter.drawText(geometry.beatOnRuler(beat), Qt::AlignCenter,
                         QString::number(static_cast<int>(division)));
        if (isTuplet(division, meters.at(meters.barOf(beat)).unitsPerCount()))
            paintTupletBracket(painter, geometry.beatOnRuler(beat));
    }
}

/// "3 D5" with the degree first and the octave quiet, ending at the left of the cells.
void paintRowName(QPainter& painter, const RowName& name, const QRectF& row, bool current) {
    QFont lettering = font(TextStyle::Label);
    if (current) lettering.setWeight(QFont::Bold);
    painter.setFont(lettering);
    const QFontMetricsF metrics(lettering);
    double right = row.left() - gridmargins::beforeFirst;
    const auto write = [&](const QString& text, Role role, double gap) {
        const double width = metrics.horizontalAdvance(text);
        painter.setPen(color(role));
        painter.drawText(QRectF(right - width, row.top(), width + 1, row.height()), Qt::AlignVCenter, text);
        right -= width + gap;
    };
    write(name.octave, Role::Muted, 0);
    write(name.name, Role::Ink, spacing::tight);
    if (!name.degree.isEmpty()) write(name.degree, current ? Role::Ink : Role::Muted, 0);
}

void paintRowNames(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    const ChordStretch* chord = scene.chords.at(scene.cursor.place);
    const int highest = geometry.midiAt(cells.top() + 1).value_or(highestMidi);
    const int lowest = geometry.midiAt(cells.bottom() - 1).value_or(lowestMidi);
    for (int midi = lowest; midi <= highest; ++midi) {
        const QRectF row = geometry.row(midi);
        if (row.top() < cells.top() - 2 || row.bottom() > cells.bottom() + 2) continue;
        const bool current = midi == scene.cursor.midi;
        const bool labelled = chord && chord->canBeRead() ? chord->isTone(midi) : pitchClassOf(midi) == 0;
        if (labelled || current)
            paintRowName(painter, current ? scene.rowAtCursor() : rowName(chord, midi), row, current);
    }
}

} // namespace

QColor cellGround(const GridScene& scene, const Beats& place, int midi) {
    return color(isPlainRow(scene.chords.at(place), midi) ? Role::Page : Role::Shade);
}

void paintGround(QPainter& painter, const GridScene& scene, const GridGeometry& geometry,
                 const QRectF& exposed) {
    const QRectF cells = geometry.cells();
    painter.save();
    painter.setClipRect(cells.adjusted(0, 0, 2, 0), Qt::IntersectClip);
    paintRows(painter, scene, geometry, exposed);
    paintCursorColumn(painter, scene, geometry);
    paintColumnLines(painter, scene, geometry);
    paintBarLines(painter, scene, geometry);
    paintPickupLine(painter, scene, geometry);
    paintBarNumbers(painter, scene, geometry);
    painter.restore();

    painter.save();
    painter.setClipRect(QRectF(cells.left() - 1, 0, cells.width() + 2, cells.top()), Qt::IntersectClip);
    paintChords(painter, scene, geometry);
    paintRuler(painter, scene, geometry);
    painter.restore();
    if (exposed.left() > cells.left()) return; // the playhead moved, and no name is touched

    painter.save();
    painter.setClipRect(QRectF(0, cells.top(), cells.left(), cells.height()), Qt::IntersectClip);
    paintRowNames(painter, scene, geometry);
    painter.restore();
}

void paintCursor(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    if (scene.selected) return; // the note itself is framed
    const GridColumn& column = scene.columns[scene.columns.indexAt(scene.cursor.place)];
    painter.save();
    painter.setClipRect(geometry.cells().adjusted(-2, 0, 2, 0), Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(color(scene.hasFocus ? Role::Ink : Role::Muted), scene.hasFocus ? 1.5 : 1));
    painter.drawRoundedRect(geometry.cell(column, scene.cursor.midi).adjusted(0.5, 0.5, 0.5, -0.5), 3, 3);
    painter.restore();
}

void paintPlayhead(QPainter& painter, const GridScene& scene, const GridGeometry& geometry) {
    if (!scene.playhead) return;
    const QRectF cells = geometry.cells();
    const double x = geometry.x(*scene.playhead);
    if (x < cells.left() || x > cells.right()) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Ink), spacing::barLine));
    const double top = geometry.helpLane().top() + spacing::hair;
    painter.drawLine(QPointF(x, top), QPointF(x, cells.bottom()));
    // A small foot on top tells it from a bar line.
    painter.setPen(Qt::NoPen);
    painter.setBrush(color(Role::Ink));
    const QPointF foot[] = {{x - playheadFoot, top}, {x + playheadFoot, top}, {x, top + 1.5 * playheadFoot}};
    painter.drawPolygon(foot, 3);
    painter.restore();
}

} // namespace earwright::ui
