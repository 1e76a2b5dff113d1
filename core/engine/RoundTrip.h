// How long sound takes from the output to the input beyond what both devices say: measured, not believed.
#pragma once

#include "core/engine/Capture.h"
#include "core/engine/Mixer.h"
#include "core/result/Result.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// Plays marks and finds them in what comes in until three agree, for a busy machine leaves gaps. Whoever
/// owns it hands over the input as it comes; an answer takes about three seconds, or nine where there
/// is none.
///
/// What is measured is the unreported part: the time between the moment the output's clock says a mark is
/// heard and the moment the input's clock says it is captured. It stays the same when the same devices are
/// opened again, also with other latencies, as far as they report those.
///
/// Threads: one at a time, not the callback.
class RoundTrip {
public:
    static constexpr int agreeing = 3;
    /// So many are tried where none comes back, and so many where they come at different times.
    static constexpr int fewestMarks = 4;
    static constexpr int mostMarks = 10;

    RoundTrip(Mixer& output, const Capture& input) : mixer(output), capture(input) {}

    /// Sound of the input, in order.
    void give(const InputBlock& block);
    /// Whether there is an answer.
    bool isDone() const { return answer.has_value(); }
    /// Seconds, a little below zero where a device says too much. Error: Device, where the marks did not come
    /// back or came back at different times. Requires: isDone().
    const Result<double>& seconds() const { return *answer; }

private:
    void startMark(const InputBlock& block);
    void lookForMark();
    std::optional<double> agreed() const;
    void conclude();

    Mixer& mixer;
    const Capture& capture;
    std::vector<float> heard;
    InputFrames heardFrom;
    SampleRate rate;
    std::int64_t stream = -1;
    /// Frames still let pass, until both clocks have settled.
    std::int64_t settling = 0;
    bool ordered = false;
    int tried = 0;
    std::vector<double> found;
    std::optional<Result<double>> answer;
};

} // namespace earwright
