// Where the recording's time lies on the form strip: all of it, from edge to edge.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <QRectF>
#include <QSizeF>

#include <optional>

namespace earwright::ui {

/// Units: pixels from the strip's top left corner; Seconds of the recording.
class StripGeometry {
public:
    enum class LoopEdge { Start, End };

    StripGeometry() = default;
    StripGeometry(const QSizeF& size, Seconds duration);

    /// The page the strip is drawn on.
    QRectF page() const { return frame; }
    /// Names on top, levels in the middle, phrases below.
    QRectF nameRow() const;
    QRectF levelRow() const;
    QRectF phraseRow() const;

    double x(Seconds time) const;
    /// Kept within the recording.
    Seconds timeAt(double x) const;
    /// The loop's edge under the pointer, the nearer one of two; nothing further than a few pixels away.
    std::optional<LoopEdge> edgeAt(double x, const Range<Seconds>& loop) const;

private:
    double left() const;
    double span() const;

    QRectF frame;
    Seconds whole;
};

} // namespace earwright::ui
