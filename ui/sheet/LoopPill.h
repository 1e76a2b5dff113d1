// The speed steps, the climb and the gap that sit on the loop: where each lies and which is chosen.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetHit.h"
#include "ui/sheet/SheetModel.h"

#include <QRectF>
#include <QString>

#include <optional>
#include <vector>

namespace earwright::ui {

/// One step on the pill.
struct PillStep {
    int percent = 100;
    QRectF place;
    bool chosen = false;
};

/// What follows the steps: the climb, the gap and, in trade, the speed of yours, each a place to change it.
struct PillPart {
    SheetPart part = SheetPart::PillClimb;
    QString text;
    QRectF place;
    /// It does something now, rather than only offering it.
    bool inUse = false;
};

struct LoopPill {
    QRectF outline;
    std::vector<PillStep> steps;
    std::vector<PillPart> parts;

    /// On the first line of the loop, above its chords; nothing without a loop. A speed between two steps
    /// gets a place of its own between them.
    static std::optional<LoopPill> on(const SheetModel& model, const SheetGeometry& geometry);
    std::optional<int> stepAt(const QPointF& point) const;
    const PillPart* partAt(const QPointF& point) const;
    /// Null where the pill has no such part.
    const PillPart* part(SheetPart kind) const;
};

} // namespace earwright::ui
