#include "ui/grid/PhrasingPlace.h"

#include "ui/theme/Spacing.h"

#include <algorithm>

namespace earwright::ui {

namespace {

bool hidesNone(const QRectF& place, const Study& study, const GridGeometry& geometry) {
    return geometry.cells().contains(place) &&
           std::none_of(study.notes.begin(), study.notes.end(), [&](const Note& note) {
               // With the degree over its head.
               return geometry.outline(note).adjusted(0, -spacing::small, 0, 0).intersects(place);
           });
}

} // namespace

std::optional<QRectF> freePlaceBeside(const Note& note, QSizeF size, const Study& study,
                                      const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    const QRectF outline = geometry.outline(note);
    const double farthest = std::max(cells.left(), cells.right() - size.width());
    const double below = outline.bottom() + spacing::medium;
    const double above = outline.top() - spacing::large - size.height();
    const double rightwards = outline.left() - spacing::small;
    const double leftwards = outline.right() - size.width();
    // Below to the right is where it is looked for.
    const QPointF corners[] = {
        {rightwards, below}, {rightwards, above}, {leftwards, below}, {leftwards, above}};
    for (const QPointF corner : corners) {
        const QRectF place(QPointF(std::clamp(corner.x(), cells.left(), farthest), corner.y()), size);
        if (hidesNone(place, study, geometry)) return place;
    }
    return std::nullopt;
}

QRectF placeUnderCells(QSizeF size, const GridGeometry& geometry) {
    const QRectF lane = geometry.markLane();
    // As wide as the cells at least, from under the names of the rows on where it needs more.
    const double left = std::max(0.0, std::min(lane.left(), lane.right() - size.width()));
    return {QPointF(left, lane.top() + std::max(0.0, (lane.height() - size.height()) / 2)), size};
}

} // namespace earwright::ui
