// How loud the ear finds a sound: the weighting of the loudness standard.
#pragma once

#include "core/time/SampleRate.h"

#include <array>

namespace earwright {

/// The K-weighting of ITU-R BS.1770-4 (annex 1): a shelf that lifts the treble by 4 dB, and a high-pass. The
/// standard gives its coefficients for 48 kHz; for other rates the analogue filters behind them are made
/// digital anew, which gives the standard's own numbers at 48 kHz.
///
/// Threads: one at a time. Real time: everything. Units: one channel.
class KWeighting {
public:
    void setRate(SampleRate rate);
    float next(float sample);
    /// Lets a tail too faint to be heard end; to be called once a block.
    void settle();

    /// b0, b1, b2, a1, a2.
    using Coefficients = std::array<double, 5>;
    const Coefficients& shelf() const { return sections[0].is; }
    const Coefficients& highPass() const { return sections[1].is; }

private:
    struct Section {
        Coefficients is{1, 0, 0, 0, 0};
        double state1 = 0;
        double state2 = 0;
    };
    std::array<Section, 2> sections;
};

/// What the standard takes off the weighted mean square, in decibels, to make it loudness (LUFS): −0.691.
inline constexpr double loudnessOffset = -0.691;

} // namespace earwright
