// A speed that rises with every few passes of a loop, up to a target.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace earwright {

/// Units: per cent of the recorded speed in whole numbers, so that steps add up exactly; speeds are
/// played ÷ original.
struct Climb {
    int stepPercent = 5;
    /// Rounds of the loop on each step, at least 1.
    int everyPasses = 4;
    int targetPercent = 100;

    bool isAtTarget(double speed) const { return percentOf(speed) >= targetPercent; }
    /// The speed after some completed rounds since `start`. The last step is shortened to meet the target; a
    /// start at or above the target stays as it is.
    double speedAfter(double start, std::int64_t passes) const {
        const std::int64_t steps = std::max<std::int64_t>(passes, 0) / std::max(everyPasses, 1);
        if (steps == 0 || isAtTarget(start)) return start;
        // No climb is longer than from rest to the target by single per cents.
        const auto counted = std::min<std::int64_t>(steps, targetPercent);
        return static_cast<double>(
                   std::min<std::int64_t>(percentOf(start) + counted * stepPercent, targetPercent)) /
               100.0;
    }
    /// A step slower, but no slower than the engine plays.
    double stepBack(double speed) const {
        return static_cast<double>(std::max<std::int64_t>(percentOf(speed) - stepPercent, slowest)) / 100.0;
    }

    friend bool operator==(const Climb&, const Climb&) = default;

private:
    static constexpr std::int64_t slowest = 10;
    static std::int64_t percentOf(double speed) { return std::llround(speed * 100); }
};

} // namespace earwright
