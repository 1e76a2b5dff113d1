// The recording's own pitch: how far its A4 lies from 440 Hz.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/TuningCurve.h"
#include "core/result/Result.h"

#include <functional>
#include <span>
#include <stop_token>

namespace earwright {

/// A recording's tuning against A4 = 440 Hz (ISO 16).
struct Tuning {
    /// −50 to 50; what lies farther off reads as the nearest semitone's tuning.
    double cents = 0;
    /// 0 (no pitch at all, or all tunings alike) to 1 (every partial agrees).
    double confidence = 0;

    /// The frequency of its A4 in hertz.
    double referenceHertz() const;
};

/// A tuning and how it moves.
struct HeardTuning {
    Tuning tuning;
    TuningCurve curve;

    /// The tuning comes from the frequencies of all clear partials between 180 Hz and 2.5 kHz, weighted by
    /// the root of their level and by how steadily they keep their place over three stretches of 186 ms, 46
    /// ms apart, leaving out those that are a third, fifth or higher odd partial of another one: these lie
    /// beside equal temperament by nature (the fifth 14 cents flat, the seventh 31). A circular mean over a
    /// semitone, then refined to the partials near it. The curve follows the same partials (followTuning).
    ///
    /// `sound`: at analysisRate. `timeOf` says where in the recording a sample stands, which rises with it.
    /// Error: Cancelled.
    static Result<HeardTuning> of(std::span<const float> sound,
                                  const std::function<Seconds(std::size_t sample)>& timeOf, Seconds duration,
                                  std::stop_token stop = {});
};

} // namespace earwright
