// Spans of a passage that are heard on a thread of their own while whoever will ask for them does other work.
#pragma once

#include "core/listening/HeardSpans.h"
#include "core/listening/StereoViews.h"
#include "core/listening/TuningCurve.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <atomic>
#include <cstddef>
#include <memory>
#include <thread>
#include <vector>

namespace earwright {

/// Begins to hear at once, if the spans are many and the system has a thread left; a few are heard by
/// finish(). Destroyed unfinished, it lets those go that nobody has begun.
///
/// Threads: one thread at a time.
class HearingAhead {
public:
    /// One list a span, in the order of the views.
    using Heard = std::vector<std::vector<std::shared_ptr<const HeardSpan>>>;

    /// `memory`: where finish() keeps what was heard. `asked`: views that are there, each once.
    HearingAhead(std::shared_ptr<const StereoViews> views, const TuningCurve& curve,
                 std::shared_ptr<HeardSpans> memory, std::vector<Range<Seconds>> spans,
                 std::vector<std::size_t> asked);
    ~HearingAhead();
    HearingAhead(const HearingAhead&) = delete;
    HearingAhead& operator=(const HearingAhead&) = delete;

    /// Takes part in what is left and waits for the rest. Requires: it was not called before.
    Heard finish();

private:
    void takePart();

    std::shared_ptr<const StereoViews> views;
    TuningCurve curve;
    std::shared_ptr<HeardSpans> memory;
    std::vector<Range<Seconds>> spans;
    std::vector<std::size_t> asked;
    /// The first span that nobody has begun.
    std::atomic<std::size_t> next = 0;
    /// Each span's place is written by the thread that took it.
    Heard heard;
    std::jthread other;
};

} // namespace earwright
