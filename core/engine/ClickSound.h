// The sound of a beat click.
#pragma once

#include "core/time/SampleRate.h"

#include <span>
#include <vector>

namespace earwright {

/// A short dry stroke: a sine that is there within half a millisecond and gone after thirty; a bar's opening
/// a fifth higher and twice as loud. Made for the rate of the output, so that no speed changes it.
class ClickSound {
public:
    static constexpr double seconds = 0.03;
    static constexpr double hertz = 1200;
    static constexpr double accentHertz = 1800;

    /// Allocates.
    void setRate(SampleRate wanted);
    /// Peaks at about 0.35, accented at about 0.7.
    std::span<const float> samples(bool accented) const { return accented ? accent : plain; }

private:
    SampleRate rate{0};
    std::vector<float> plain;
    std::vector<float> accent;
};

} // namespace earwright
