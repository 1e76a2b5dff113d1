// A small study on a sheet, shared by the sheet's tests: 100 pixels a second, 200 a bar.
#pragma once

#include "ui/sheet/SheetGeometry.h"
#include "ui/sheet/SheetModel.h"

#include <memory>

namespace earwright::ui {

/// Bars of two seconds in 4/4 from the recording's start; 30 seconds; four bars on a line of 800 pixels, so
/// that time t of the first line lies at 10 + 100 t.
struct MarkedSheet {
    Study study;
    SheetModel model;
    SheetGeometry geometry;

    MarkedSheet() {
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}, {Beats(12), Seconds(6)}});
        lay();
    }

    void lay() {
        SheetMetrics metrics;
        metrics.width = 820;
        metrics.margin = 10;
        model.study = std::make_shared<const Study>(study);
        model.duration = Seconds(30);
        model.speedSteps = {35, 50, 65, 80, 100};
        geometry = SheetGeometry(study, model.duration, {4, Seconds(8)}, metrics);
    }

    /// The middle of the first line at a time.
    QPointF at(double seconds) const { return {10 + 100 * seconds, geometry.box(0).center().y()}; }
    /// The foot of a bar line there.
    QPointF footAt(double seconds) const { return {10 + 100 * seconds, geometry.box(0).bottom() - 2}; }
};

} // namespace earwright::ui
