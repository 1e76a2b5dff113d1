// Where the small signs of phrasing stand over and under a note's head.
#pragma once

#include "core/music/PhrasingKind.h"

#include <QPointF>
#include <QRectF>

#include <vector>

namespace earwright::ui {

/// A sign that stands over or under the head.
struct PlacedSign {
    PhrasingKind kind;
    QRectF box;
};

/// What the signs of one note have to keep clear of. Pixels of the view.
struct SignRoom {
    QPointF head;
    double radius = 0;
    /// The degree is lettered over the head.
    bool hasDegree = false;
    /// The note is too short on the screen for a sign beside its head: trill, vibrato, slides and fall stand
    /// over or under it as well.
    bool isNarrow = false;
};

/// The signs of a note, none touching another, its head or its degree, and none wider than the narrowest
/// column of the grid. From the head outwards as on a page (common practice): staccato, tenuto and accent
/// first, then how the string is reached; ornaments over the degree, a bend over all.
std::vector<PlacedSign> placeSigns(const Phrasing& phrasing, const SignRoom& room);

} // namespace earwright::ui
