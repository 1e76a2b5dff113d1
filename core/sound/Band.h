// A stretch of the spectrum to listen to, or to listen without.
#pragma once

#include <algorithm>
#include <cmath>

namespace earwright {

/// Threads: a plain value. Units: hertz, 20 to 20,000; at those limits an edge is open: nothing is cut there.
struct Band {
    static constexpr double lowestHertz = 20;
    static constexpr double highestHertz = 20000;

    double lowHertz = lowestHertz;
    double highHertz = highestHertz;
    /// False: only the band is heard. True: everything but the band.
    bool remove = false;

    /// The band as it is heard: edges in order, within the limits and at least a semitone apart (widened
    /// around their geometric mean where they are closer).
    Band playable() const {
        const double semitone = std::exp2(1.0 / 12);
        const auto fit = [](double hertz, double otherwise) {
            return std::isfinite(hertz) ? std::clamp(hertz, lowestHertz, highestHertz) : otherwise;
        };
        const double one = fit(lowHertz, lowestHertz);
        const double other = fit(highHertz, highestHertz);
        Band kept{std::min(one, other), std::max(one, other), remove};
        if (kept.highHertz < kept.lowHertz * semitone) {
            const double middle = std::clamp(std::sqrt(one * other), lowestHertz * std::sqrt(semitone),
                                             highestHertz / std::sqrt(semitone));
            kept.lowHertz = std::max(lowestHertz, middle / std::sqrt(semitone));
            kept.highHertz = std::min(highestHertz, middle * std::sqrt(semitone));
        }
        return kept;
    }

    friend bool operator==(const Band&, const Band&) = default;
};

} // namespace earwright
