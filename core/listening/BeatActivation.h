// How much begins at each moment, and how the harmony changes: what beats are found in.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/result/Result.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <array>
#include <cstddef>
#include <stop_token>
#include <vector>

namespace earwright {

/// Onset strength a hundred times a second, low, middle and high register apart, each 0 (nothing) to 1 (as
/// strong as the strongest of the seconds around), and the pitch classes that sound.
///
/// Threads: a value. Memory: about 2 KB a second.
struct BeatActivation {
    /// From one frame to the next.
    static constexpr Seconds step{220.0 / analysisRate.hertz};
    using Chroma = std::array<float, 12>;

    Seconds begin;
    std::vector<float> low;
    std::vector<float> middle;
    std::vector<float> high;
    /// All registers together.
    std::vector<float> all;
    /// Each of length 1, or all zero in silence.
    std::vector<Chroma> chroma;

    std::size_t size() const { return all.size(); }
    Seconds timeOf(double frame) const { return begin + Seconds(frame * step.value); }
    double frameOf(Seconds time) const { return (time - begin).value / step.value; }

    /// Spectral flux of log-magnitude bands against the loudest of the neighbouring bands a moment before, so
    /// that vibrato and slides are no onsets (Boeck and Widmer 2013, "Maximum filter vibrato suppression").
    /// Takes about a hundredth of the range's length. Errors: Cancelled.
    static Result<BeatActivation> listen(const AnalysisSound& sound, const Range<Seconds>& range,
                                         std::stop_token stop = {});
};

} // namespace earwright
