// The recording, slowed and transposed, at the rate of the device: one unbroken stream.
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
    /// Of output: stretched before the start and thrown away, so that the stretch is steady by then. Costs as
    /// much work.
    double settleSeconds = 0;

    bool isStretched() const { return speed != 1.0 || semitones != 0.0; }
};

/// LoopedSource → (resampler) → Stretcher → (resampler) → output. Output frame n stands at recording frame
/// from + n · speed · recording rate ÷ output rate.
///
/// At full speed and pitch the stretcher is left out and the record passes as it is. The stretcher itself
/// runs at 44.1 or 48 kHz, for which its timing is known; recordings of other rates are resampled for it.
///
/// A stretcher carries a jump of phase at a loop's seam on for as long as the tone lasts. So a stretched loop
/// is gone round only where both sides of its seam agree; otherwise the stream goes straight on past B.
///
/// Threads: one at a time (the engine's worker, or a bounce). Reads the disk, allocates at the start.
class StretchedSource {
public:
    /// What was heard before is forgotten; the first sound is ready after a few milliseconds of work.
    void start(const RecordStart& start);
    /// The next frames, in the recording's own channels, interleaved. Requires: start() was called.
    void produce(std::span<float> interleaved);
    int channels() const { return channelCount; }
    /// Whether it goes round the loop: known, at the latest, for the last 13 ms of a pass that were produced.
    bool goesRound() const { return source->goesRound(); }

private:
    void openStretcher(SampleRate rate);
    void feed();
    void feedStretcher();
    void pullStretched();

    int channelCount = 2;
    std::unique_ptr<LoopedSource> source;
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
    /// Samples made before the first that is given out.
    std::size_t toDrop = 0;
    std::vector<float> block;
};

} // namespace earwright
