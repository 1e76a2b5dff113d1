// The ways of listening into a stereo picture: both sides together, either one, the centre or the sides
// alone.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// Where in the stereo picture is listened.
enum class View { Both, Left, Right, Centre, Sides };

/// A passage of the recording as each view hears it, with half a second of its surroundings.
///
/// A recording that is mono, or nearly so, has only View::Both.
/// Threads: a value; share it const. Units: samples at analysisRate.
class StereoViews {
public:
    /// What is heard on either side of a passage.
    static constexpr Seconds surroundings{0.5};

    /// Requires: the sound reaches over passage and surroundings, as far as the recording does.
    StereoViews(const AnalysisSound& sound, Range<Seconds> passage);

    std::size_t count() const { return samples.size(); }
    View view(std::size_t index) const { return static_cast<View>(index); }
    std::span<const float> sound(std::size_t index) const { return samples[index]; }
    std::size_t bytes() const { return samples.size() * samples.front().size() * sizeof(float); }
    /// The sample of sound(…) that stands at a time of the recording; may lie outside it.
    std::ptrdiff_t sampleAt(Seconds time) const;
    /// The time of the recording at a sample of sound(…).
    Seconds timeOf(std::ptrdiff_t sample) const;

private:
    std::ptrdiff_t firstSample = 0;
    std::vector<std::vector<float>> samples;
};

} // namespace earwright
