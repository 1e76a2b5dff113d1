#include "ui/grid/GridGeometry.h"

#include "core/music/Pitch.h"
#include "ui/theme/Spacing.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int rowCount = highestMidi - lowestMidi + 1;
/// From a column's line to the centre of a head in it.
constexpr double headInset = spacing::headRadius + 1.5;
constexpr double tailGap = 3;
/// How far around a tail's end it can be taken.
constexpr double handleBefore = 6;
constexpr double handleAfter = 4;

} // namespace

GridGeometry::GridGeometry(const GridColumns& columns, QSizeF view, QPointF scroll)
    : bars(columns.range()),
      cellArea(gridmargins::labels, gridmargins::top,
               std::max(0.0, view.width() - gridmargins::labels - gridmargins::right),
               std::max(0.0, view.height() - gridmargins::top)) {
    if (columns.isEmpty()) return;
    const double beats = bars.length().toDouble();
    oneBeat = std::max({cellArea.width() / beats, narrowestBeat, narrowestColumn * columns.finestDivision()});
    whole = QSizeF(oneBeat * beats, rowHeight * rowCount);
    const QSizeF range = scrollRange();
    scrolled =
        QPointF(std::clamp(scroll.x(), 0.0, range.width()), std::clamp(scroll.y(), 0.0, range.height()));
}

QRectF GridGeometry::chordLane() const {
    return {cellArea.left(), 0, cellArea.width(), gridmargins::chords};
}

QRectF GridGeometry::rulerLane() const {
    return {cellArea.left(), gridmargins::chords, cellArea.width(), gridmargins::ruler};
}

QRectF GridGeometry::helpLane() const {
    return {cellArea.left(), gridmargins::chords + gridmargins::ruler, cellArea.width(), gridmargins::help};
}

QSizeF GridGeometry::scrollRange() const {
    return {std::max(0.0, whole.width() - cellArea.width()),
            std::max(0.0, whole.height() - cellArea.height())};
}

double GridGeometry::x(double beats) const {
    return cellArea.left() - scrolled.x() + (beats - bars.begin.toDouble()) * oneBeat;
}

double GridGeometry::beatsAt(double x) const {
    return bars.begin.toDouble() + (x - cellArea.left() + scrolled.x()) / oneBeat;
}

double GridGeometry::y(double midi) const {
    return cellArea.top() - scrolled.y() + (highestMidi - midi + 0.5) * rowHeight;
}

std::optional<int> GridGeometry::midiAt(double y) const {
    const double rowsDown = std::floor((y - cellArea.top() + scrolled.y()) / rowHeight);
    if (rowsDown < 0 || rowsDown >= rowCount) return std::nullopt;
    return highestMidi - static_cast<int>(rowsDown);
}

QRectF GridGeometry::row(int midi) const {
    return {cellArea.left(), y(midi) - rowHeight / 2, cellArea.width(), rowHeight};
}

QRectF GridGeometry::cell(const GridColumn& column, int midi) const {
    const double left = x(column.range.begin);
    return {left, y(midi) - rowHeight / 2, x(column.range.end) - left, rowHeight};
}

QRectF GridGeometry::beatOnRuler(std::int64_t beat) const {
    const QRectF lane = rulerLane();
    return {x(Beats(beat)), lane.top(), oneBeat, lane.height()};
}

QPointF GridGeometry::head(const Note& note) const {
    return {x(note.onset) + headInset, y(note.pitch.midi)};
}

QPointF GridGeometry::tailEnd(const Note& note) const {
    return {std::max(x(note.end()) - tailGap, head(note).x()), y(note.pitch.midi)};
}

QRectF GridGeometry::headArea(const Note& note) const {
    const QPointF centre = head(note);
    return {centre.x() - headInset, centre.y() - rowHeight / 2, headInset + spacing::headRadius, rowHeight};
}

QRectF GridGeometry::tailHandle(const Note& note) const {
    // From just before the end to just past it, but never over the head.
    const double left = std::max(tailEnd(note).x() - handleBefore, headArea(note).right());
    const double right = std::max(tailEnd(note).x(), headArea(note).right()) + handleAfter;
    return {left, headArea(note).top(), right - left, rowHeight};
}

QRectF GridGeometry::outline(const Note& note) const {
    return headArea(note) | tailHandle(note);
}

} // namespace earwright::ui
