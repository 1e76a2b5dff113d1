// The speed steps and the climb that sit on the loop: where each lies and which is chosen.
#pragma once

#include "ui/sheet/SheetGeometry.h"
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

struct LoopPill {
    QRectF outline;
    std::vector<PillStep> steps;
    /// After the steps: what the climb is, and the place to change it.
    QString climbText;
    QRectF climbPlace;

    /// On the first line of the loop, above its chords; nothing without a loop. A speed between two steps
    /// gets a place of its own between them.
    static std::optional<LoopPill> on(const SheetModel& model, const SheetGeometry& geometry);
    std::optional<int> stepAt(const QPointF& point) const;
};

} // namespace earwright::ui
