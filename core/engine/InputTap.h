// The last second of the input for whoever listens to it beside takes being kept.
#pragma once

#include "core/engine/InputBlock.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <mutex>
#include <vector>

namespace earwright {

/// What came in, both channels in equal parts.
struct TappedSound {
    std::vector<float> samples;
    SampleRate rate;
};

/// Threads: any; holds its lock for no longer than a second of samples takes to copy. Not for callbacks.
class InputTap {
public:
    /// Closed, as at first, it keeps nothing; what it had is dropped.
    void setOpen(bool open);
    bool isOpen() const;
    void give(const InputBlock& block);
    /// What came since the last call, in order, no more than the last second. Nothing from before an
    /// interruption or a change of the input.
    TappedSound take();

private:
    mutable std::mutex guard;
    bool opened = false;
    TappedSound kept;
    InputFrames next;
    std::int64_t stream = 0;
};

} // namespace earwright
