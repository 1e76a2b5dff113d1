// Whole notches of a wheel, out of the many small parts in which a touchpad turns.
#pragma once

#include <QWheelEvent>

namespace earwright::ui {

/// Keeps what is left over, so that small parts add up. Units: eighths of a degree, as QWheelEvent has them.
class WheelNotches {
public:
    /// Notches turned since: positive away from the user.
    int take(int eighths) {
        constexpr int notch = QWheelEvent::DefaultDeltasPerStep;
        turned += eighths;
        const int whole = turned / notch;
        turned -= whole * notch;
        return whole;
    }

private:
    int turned = 0;
};

} // namespace earwright::ui
