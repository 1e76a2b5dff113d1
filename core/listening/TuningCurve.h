// A recording's tuning along its time: tapes and turntables that run fast or slow take the pitch with them.
#pragma once

#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// Threads: a value; share it const. Units: cents above A4 = 440 Hz; may run beyond ±50 where a recording
/// drifts on from there.
class TuningCurve {
public:
    /// The same throughout.
    TuningCurve(double cents = 0) : overall(cents) {}
    /// Knots a step apart, the first at the recording's start. Requires: step greater than zero.
    TuningCurve(double cents, Seconds knotStep, std::vector<double> knotCents)
        : overall(cents), step(knotStep), knots(std::move(knotCents)) {}

    /// Of the recording as a whole.
    double cents() const { return overall; }
    double centsAt(Seconds time) const;
    bool drifts() const { return !knots.empty(); }
    /// From the lowest to the highest; 0 where it does not drift.
    double reach() const;
    /// The same curve higher by so many cents throughout.
    TuningCurve moved(double cents) const;
    Seconds knotStep() const { return step; }
    const std::vector<double>& knotCents() const { return knots; }
    friend bool operator==(const TuningCurve&, const TuningCurve&) = default;

private:
    double overall;
    Seconds step{1};
    std::vector<double> knots;
};

} // namespace earwright
