// The record as it is heard: looped, slowed, transposed, at the rate of the device.
#pragma once

#include "core/engine/LoopedSource.h"
#include "core/engine/SampleFifo.h"
#include "core/engine/Stretcher.h"
#include "core/sound/Recording.h"
#include "core/sound/Resampler.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"
#include "core/time/SampleRate.h"

#include <memory>
#include <optional>
#include <span>

namespace earwright {

/// Where and how a stretch of playing begins.
struct RecordStart {
    std::shared_ptr<Recording> recording;
    Frames from;
    std::optional<Range<Frames>> loop;
    /// Played ÷ original, 0.1 to 2.
    double speed = 1;
    /// With cents as a fraction, −13 to 13.
    double semitones = 0;
    SampleRate outputRate;
};

/// LoopedSource → (resampler) → Stretcher → (resampler) → output. Output frame n stands at recording frame
/// from + n · speed · recording rate ÷ output rate.
///
/// At full speed and pitch the stretcher is left out and the record passes as it is. The stretcher itself
/// runs at 44.1 or 48 kHz, for which its timing is known; recordings of other rates are resampled for it.
///
/// Threads: one at a time (the engine's worker, or a bounce). Reads the disk, allocates at the start.
class RecordPart {
public:
    /// What was heard before is forgotten; the first sound is ready after a few milliseconds of work.
    void start(const RecordStart& start);
    /// The next frames, in the recording's own channels, interleaved. Requires: start() was called.
    void produce(std::span<float> interleaved);
    int channels() const { return channelCount; }

private:
    void openStretcher(SampleRate rate);
    void feed();
    void feedStretcher();
    void pullStretched();

    int channelCount = 2;
    std::unique_ptr<LoopedSource> source;
    /// Keeps the loop's sound in memory, also while something else is played between.
    std::shared_ptr<const void> heldLoop;
    std::unique_ptr<Stretcher> stretcher;
    SampleRate stretcherRate{0};
    int stretcherChannels = 0;
    bool stretching = false;
    std::unique_ptr<Resampler> before;
    std::unique_ptr<Resampler> after;
    SampleFifo atFileRate;
    SampleFifo toStretch;
    SampleFifo stretched;
    SampleFifo ready;
    std::size_t dropBeforeStretch = 0;
    std::vector<float> block;
};

} // namespace earwright
