// Turns what the hand does on the chorus sheet into a wish; one gesture at a time.
#pragma once

#include "ui/sheet/SheetHit.h"
#include "ui/sheet/SheetWish.h"

#include <optional>
#include <vector>

namespace earwright::ui {

/// What a drag may catch on.
enum class Catch {
    BarLines, ///< a few pixels around each bar line
    Onsets,   ///< the onset of the recording nearest to the hand
};

/// Press, move as often as it likes, release. While it lasts, the model's dragged… fields and its stretch
/// show what letting go here would do; the study is not touched.
class SheetTool {
public:
    void press(const SheetHit& hit, const QPointF& point, SheetModel& model);
    void move(const QPointF& point, Catch catching, SheetModel& model, const SheetGeometry& geometry);
    SheetWish release(const QPointF& point, Catch catching, SheetModel& model, const SheetGeometry& geometry);
    /// Gives the gesture up and shows what was there before.
    void cancel(SheetModel& model);
    bool isActive() const { return active; }

private:
    Seconds caught(const QPointF& point, Catch catching, const SheetModel& model,
                   const SheetGeometry& geometry) const;
    SheetWish clicked() const;
    SheetWish dragged(const SheetModel& model) const;

    bool active = false;
    bool dragging = false;
    SheetHit start;
    QPointF pressedAt;
    /// The end of a loop or stretch that stays where it is.
    Seconds fixed;
    std::optional<Range<Seconds>> stretchBefore;
};

/// The onset nearest to a time, or the time itself where none is within reach. Requires: onsets rise.
Seconds nearestOnset(const std::vector<Seconds>& onsets, Seconds time, Seconds reach);

} // namespace earwright::ui
