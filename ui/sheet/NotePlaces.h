// How high a written note stands on the chorus sheet: one scale for the whole study.
#pragma once

#include "core/study/Study.h"

#include <QRectF>

namespace earwright::ui {

/// Maps pitches to heights within the upper part of a line's box; the sheet shows a contour, not a staff.
class NotePlaces {
public:
    explicit NotePlaces(const Study& study);
    double y(const QRectF& box, int midi) const;

private:
    int lowest;
    int highest;
};

} // namespace earwright::ui
