// Draws beats that are proposed, each with how sure it is.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <QPainter>

namespace earwright::ui {

/// How much is drawn of a proposed beat.
enum class Sureness { Sure, Likely, Unsure };
Sureness surenessOf(const ProposedBeat& beat);

/// A dashed line with a lozenge on top: full where the beat is sure, open where it is likely; an unsure beat
/// is a dotted stub under an open lozenge. First beats of bars are drawn stronger.
class ProposalPainter {
public:
    ProposalPainter(const SheetModel& shown, const SheetGeometry& places) : model(shown), geometry(places) {}
    void paint(QPainter& painter, std::size_t line) const;

private:
    void paintBeat(QPainter& painter, const QRectF& box, double x, const ProposedBeat& beat) const;

    const SheetModel& model;
    const SheetGeometry& geometry;
};

} // namespace earwright::ui
