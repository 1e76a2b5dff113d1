#include "core/listening/TuningDrift.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace earwright {

namespace {

constexpr Seconds knotStep{1};
/// A standard deviation; beyond three nothing counts.
constexpr double smoothing = 3;
/// Partials count by a bell of so many cents around the tuning.
constexpr double width = 16;
constexpr double leastReach = 10;
/// Shorter recordings hold too few notes to tell a drift from the playing.
constexpr Seconds shortest{20};

/// Partials move the tuning in full from this share of the weight at the surest place on.
constexpr double enoughShare = 0.1;

class Follower {
public:
    Follower(const std::vector<TunedPartial>& all, Seconds duration)
        : partials(all), knots(static_cast<std::size_t>(std::ceil(ratio(duration, knotStep))) + 1) {}

    std::vector<double> followed(double overall) {
        const std::size_t start = surest();
        const double first = circularMean(start);
        enough = enoughShare * std::abs(agreement(start));
        // A semitone further on is the same place: nearest to the tuning as a whole.
        knots[start] = settled(start, overall + withinSemitone(first - overall));
        for (std::size_t i = start + 1; i < knots.size(); ++i)
            knots[i] = settled(i, knots[i - 1]);
        for (std::size_t i = start; i-- > 0;)
            knots[i] = settled(i, knots[i + 1]);
        return knots;
    }

private:
    static double timeOf(std::size_t knot) { return knotStep.value * static_cast<double>(knot); }

    template <class Take>
    void around(std::size_t knot, Take take) const {
        const double time = timeOf(knot);
        const auto before = [](const TunedPartial& partial, double other) {
            return partial.time.value < other;
        };
        auto at = std::lower_bound(partials.begin(), partials.end(), time - 3 * smoothing, before);
        for (; at != partials.end() && at->time.value <= time + 3 * smoothing; ++at) {
            const double off = (at->time.value - time) / smoothing;
            take(*at, at->weight * std::exp(-0.5 * off * off));
        }
    }

    std::complex<double> agreement(std::size_t knot) const {
        std::complex<double> sum = 0;
        around(knot, [&](const TunedPartial& partial, double weight) {
            sum += std::polar(weight, 2 * std::numbers::pi * partial.cents / 100);
        });
        return sum;
    }
    double circularMean(std::size_t knot) const {
        return std::arg(agreement(knot)) / (2 * std::numbers::pi) * 100;
    }
    std::size_t surest() const {
        std::size_t best = 0;
        double most = -1;
        for (std::size_t i = 0; i < knots.size(); ++i) {
            const double here = std::abs(agreement(i));
            if (here <= most) continue;
            most = here;
            best = i;
        }
        return best;
    }

    /// Where the partials around a knot pull a guess to; the guess where there are none.
    double settled(std::size_t knot, double guess) const {
        constexpr int rounds = 4;
        for (int round = 0; round < rounds; ++round) {
            double sum = 0;
            double weights = 0;
            around(knot, [&](const TunedPartial& partial, double weight) {
                const double off = withinSemitone(partial.cents - guess);
                const double counts = weight * std::exp(-0.5 * off * off / (width * width));
                sum += counts * off;
                weights += counts;
            });
            if (weights > 0) guess += sum / std::max(weights, enough);
        }
        return guess;
    }

    const std::vector<TunedPartial>& partials;
    std::vector<double> knots;
    /// Less weight than this moves the tuning by its share only.
    double enough = 0;
};

} // namespace

double withinSemitone(double cents) {
    return cents - 100 * std::round(cents / 100);
}

TuningCurve followTuning(const std::vector<TunedPartial>& partials, double overall, Seconds duration) {
    if (partials.empty() || duration < shortest) return TuningCurve(overall);
    TuningCurve curve(overall, knotStep, Follower(partials, duration).followed(overall));
    return curve.reach() < leastReach ? TuningCurve(overall) : curve;
}

} // namespace earwright
