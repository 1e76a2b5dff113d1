// How long there was playing without a rest, so that a break can be suggested.
#pragma once

namespace earwright::ui {

/// Units: seconds of the listener's clock. A pause shorter than a rest counts as playing on.
///
/// Common caution among musicians and teachers, no medical rule: after three quarters of an hour, rest for
/// five minutes. Local rules and hearing professionals know better.
class ListeningTime {
public:
    static constexpr double longPlaying = 45 * 60;
    static constexpr double rest = 5 * 60;

    /// What went on for the last `seconds`.
    void add(double seconds, bool playing);
    /// True from the time a break is due until there was one, or the user put the word away.
    bool isBreakDue() const { return played >= longPlaying && !putAway; }
    /// The word is not wanted before the next rest.
    void putWordAway() { putAway = true; }

private:
    double played = 0;
    double paused = 0;
    bool putAway = false;
};

} // namespace earwright::ui
