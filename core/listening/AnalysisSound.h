// The recording, or a stretch of it, at the one rate the listening works at.
#pragma once

#include "core/result/Result.h"
#include "core/sound/Recording.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <functional>
#include <stop_token>
#include <vector>

namespace earwright {

/// 11 kHz of spectrum hold all partials that tell one pitch from another.
inline constexpr SampleRate analysisRate{22050};

/// How much of a task is done, 0 to 1.
using Progress = std::function<void(double)>;

/// A recording's samples at analysisRate, one vector a channel.
///
/// Threads: a value; share it const.
/// Units: samples at analysisRate, −1…1; 10 minutes of stereo take 106 MB.
struct AnalysisSound {
    std::vector<float> left;
    /// Empty where the recording is mono; otherwise as long as `left`.
    std::vector<float> right;
    /// Where the first sample stands in the recording, counted in samples at analysisRate.
    std::int64_t firstSample = 0;

    bool isStereo() const { return !right.empty(); }
    /// Both channels in equal parts.
    std::vector<float> mid() const;
    /// Of what is here.
    Seconds duration() const;

    /// Reads and resamples all of a recording. Not for the audio thread; may take seconds. `progress` is
    /// called on this thread. Errors: Cancelled when the token asks to stop.
    static Result<AnalysisSound> read(Recording& recording, std::stop_token stop = {},
                                      const Progress& progress = {});
    /// The same samples for a stretch alone, as far as the recording reaches; takes about a hundredth of its
    /// length. Equal to the last bit where the recording's rate is a multiple of analysisRate, else to the
    /// rounding of the resampler's own clock (1e-5 of full scale).
    static Result<AnalysisSound> readStretch(Recording& recording, const Range<Seconds>& stretch,
                                             std::stop_token stop = {});
    /// Samples that read() would give for a recording.
    static std::int64_t lengthOf(const Recording& recording);
};

} // namespace earwright
