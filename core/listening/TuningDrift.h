// How a recording's tuning moves along its time, from where its partials lie.
#pragma once

#include "core/listening/TuningCurve.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// A partial that tells of the tuning.
struct TunedPartial {
    Seconds time;
    /// Above A4 = 440 Hz; only its place within the semitone counts.
    double cents = 0;
    double weight = 0;
};

/// Follows the tuning from the place where the partials around agree most, outwards in both directions, by
/// the mean of those near what it was just before (mean shift, Comaniciu and Meer 2002), smoothed over some
/// three seconds. So it follows a drift of any size, but no wow within a bar: that moves pitches by less than
/// a player does. Where little is heard, as in a pause, it stays where it was: a faint hum is no instrument.
/// A curve that stays within ten cents counts as none: intonation moves as much.
/// Partials by time. `overall`: of the recording as a whole, to which the curve is nearest.
TuningCurve followTuning(const std::vector<TunedPartial>& partials, double overall, Seconds duration);

/// An interval's place within the semitone, −50 to 50 cents.
double withinSemitone(double cents);

} // namespace earwright
