#include "ui/grid/GridGeometry.h"

#include "core/music/Pitch.h"
#include "ui/theme/Spacing.h"

#include <algorithm>
#include <cmath>
#include <functional>

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
               std::max(0.0, view.height() - gridmargins::top - gridmargins::marks)) {
    if (columns.isEmpty()) return;
    layOutBeats(columns);
    whole = QSizeF(lines.back(), rowHeight * rowCount);
    const QSizeF range = scrollRange();
    scrolled =
        QPointF(std::clamp(scroll.x(), 0.0, range.width()), std::clamp(scroll.y(), 0.0, range.height()));
}

void GridGeometry::layOutBeats(const GridColumns& columns) {
    std::vector<double> least;
    places.clear();
    for (const GridColumn& column : columns) {
        if (column.range.begin == column.beat) {
            places.push_back(column.beat.toDouble());
            least.push_back(0);
        }
        least.back() += narrowestColumn;
    }
    places.push_back(bars.end.toDouble());
    // As wide as all can be together; a beat that needs more takes it, and leaves less for the others.
    std::vector<double> widest = least;
    std::sort(widest.begin(), widest.end(), std::greater<>());
    double room = cellArea.width();
    auto sharing = static_cast<double>(widest.size());
    for (const double need : widest) {
        if (need * sharing <= room) break;
        room -= need;
        sharing -= 1;
    }
    oneBeat = sharing > 0 ? std::max(room / sharing, narrowestBeat) : narrowestBeat;
    lines.assign(1, 0.0);
    for (const double need : least)
        lines.push_back(lines.back() + std::max(oneBeat, need));
}

double GridGeometry::widestBeat() const {
    double widest = oneBeat;
    for (std::size_t beat = 1; beat < lines.size(); ++beat)
        widest = std::max(widest, lines[beat] - lines[beat - 1]);
    return widest;
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

QRectF GridGeometry::markLane() const {
    return {cellArea.left(), cellArea.bottom(), cellArea.width(), gridmargins::marks};
}

QSizeF GridGeometry::scrollRange() const {
    return {std::max(0.0, whole.width() - cellArea.width()),
            std::max(0.0, whole.height() - cellArea.height())};
}

std::size_t GridGeometry::beatUnder(double place) const {
    const auto after = std::upper_bound(places.begin() + 1, places.end() - 1, place);
    return static_cast<std::size_t>(after - places.begin()) - 1;
}

double GridGeometry::x(double beats) const {
    const std::size_t beat = beatUnder(beats);
    const double left = cellArea.left() - scrolled.x() + lines[beat];
    return left +
           (beats - places[beat]) / (places[beat + 1] - places[beat]) * (lines[beat + 1] - lines[beat]);
}

double GridGeometry::beatsAt(double x) const {
    const double into = x - cellArea.left() + scrolled.x();
    const auto after = std::upper_bound(lines.begin() + 1, lines.end() - 1, into);
    const auto beat = static_cast<std::size_t>(after - lines.begin()) - 1;
    return places[beat] +
           (into - lines[beat]) / (lines[beat + 1] - lines[beat]) * (places[beat + 1] - places[beat]);
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

QRectF GridGeometry::beatOnRuler(const Beats& beat) const {
    const QRectF lane = rulerLane();
    const std::size_t index = beatUnder(beat.toDouble());
    const double left = cellArea.left() - scrolled.x() + lines[index];
    return {left, lane.top(), lines[index + 1] - lines[index], lane.height()};
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
