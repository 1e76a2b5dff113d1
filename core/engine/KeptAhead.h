// How much sound is kept ready ahead of the device, and how that grows with each gap.
#pragma once

#include <algorithm>

namespace earwright {

/// A value. Seconds of output.
///
/// A device that starts, or was kept from asking, takes all it has room for at once; the spare on top covers
/// the time the worker may be kept from its work. Each gap adds to it, up to a bound, and nothing takes it
/// away again: the machine has shown how busy it gets. More kept ready costs memory only; a new place, speed
/// or pitch is joined close to the ear all the same.
struct KeptAhead {
    static constexpr double least = 0.25;
    static constexpr double spare = 0.17;
    static constexpr double moreEachGap = 0.05;
    static constexpr int mostSteps = 6;
    /// The rings of the lanes hold this at every rate up to 192 kHz.
    static constexpr double most = 0.65;

    /// What the device has room for.
    double deviceSeconds = 0.08;
    /// Gaps so far.
    int gaps = 0;

    double atFirst() const { return std::min(most, std::max(least, deviceSeconds + spare)); }
    double seconds() const {
        return std::min(most, atFirst() + moreEachGap * std::clamp(gaps, 0, mostSteps));
    }
};

} // namespace earwright
