#include "ui/grid/PhrasingPlace.h"

#include "ui/theme/Spacing.h"

#include <algorithm>
#include <limits>

namespace earwright::ui {

namespace {

int hiddenNotes(const QRectF& place, const Study& study, const GridGeometry& geometry) {
    if (!geometry.cells().contains(place)) return std::numeric_limits<int>::max() - 1;
    return static_cast<int>(std::count_if(study.notes.begin(), study.notes.end(), [&](const Note& note) {
        // With the degree over its head.
        return geometry.outline(note).adjusted(0, -spacing::small, 0, 0).intersects(place);
    }));
}

} // namespace

QRectF placeBeside(const Note& note, QSizeF size, const Study& study, const GridGeometry& geometry) {
    const QRectF cells = geometry.cells();
    const QRectF outline = geometry.outline(note);
    const double farthest = std::max(cells.left(), cells.right() - size.width());
    const double below = outline.bottom() + spacing::medium;
    const double above = outline.top() - spacing::large - size.height();
    const double rightwards = outline.left() - spacing::small;
    const double leftwards = outline.right() - size.width();
    // Below to the right is where it is looked for; elsewhere only where it hides fewer notes.
    const QPointF corners[] = {
        {rightwards, below}, {rightwards, above}, {leftwards, below}, {leftwards, above}};
    QRectF best;
    int fewest = std::numeric_limits<int>::max();
    for (const QPointF corner : corners) {
        const QRectF place(QPointF(std::clamp(corner.x(), cells.left(), farthest), corner.y()), size);
        const int hidden = hiddenNotes(place, study, geometry);
        if (hidden >= fewest) continue;
        fewest = hidden;
        best = place;
    }
    return best;
}

} // namespace earwright::ui
