// Turns what the hand does on the form strip into what is meant: a place to hear, or a loop.
#pragma once

#include "ui/strip/StripGeometry.h"

#include <optional>

namespace earwright::ui {

/// One gesture at a time: press, move as often as it likes, release.
class StripTool {
public:
    /// What a finished gesture asks for; at most one of them.
    struct Wish {
        std::optional<Seconds> seek;
        std::optional<Range<Seconds>> loop;
    };

    void press(double x, const StripGeometry& geometry, const std::optional<Range<Seconds>>& loop);
    /// What the loop would be if the hand let go here; nothing while it is a click so far.
    std::optional<Range<Seconds>> move(double x, const StripGeometry& geometry);
    Wish release(double x, const StripGeometry& geometry);
    /// Gives the gesture up.
    void cancel() { pressed = false; }
    bool isActive() const { return pressed; }

private:
    Range<Seconds> between(Seconds a, Seconds b) const;

    bool pressed = false;
    bool dragging = false;
    double pressedX = 0;
    /// The end that stays where it is.
    Seconds fixed;
};

} // namespace earwright::ui
