// Changes speed and pitch apart from each other, and knows where in the source its output stands.
#pragma once

#include "core/engine/AttackGraft.h"
#include "core/engine/FaintHiss.h"
#include "core/time/SampleRate.h"

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace RubberBand {
class RubberBandStretcher;
}

namespace earwright {

/// RubberBand's finer engine (R3) in its real-time mode.
///
/// Once started, output frame n stands at source frame place + n · speed, without drift as long as it is fed
/// chunk() frames at a time. Sudden attacks stand there to the frame, over sustained sound within three
/// (AttackGraft); softer onsets within the engine's own jitter (0.5 ms of source at half speed, about 2 ms at
/// double speed and below a quarter).
///
/// Sustained tones keep their pitch exactly (FaintHiss says what that takes); the reference tests hold 3
/// cents.
///
/// Threads: one at a time (the engine's worker, or a bounce).
/// Real time: no allocation after construction, but far too long for a callback.
/// Units: interleaved frames at one rate in and out; speed is played ÷ original, 0.1 to 2.
class Stretcher {
public:
    /// Requires: rate 44,100 or 48,000 (its timing is known for these), channels 1 or 2.
    Stretcher(SampleRate rate, int channels);
    ~Stretcher();
    Stretcher(const Stretcher&) = delete;
    Stretcher& operator=(const Stretcher&) = delete;

    /// Forgets everything and starts anew.
    void start(double speed, double semitones);
    /// Feeding has to start this many source frames before the place that output frame 0 is to stand at.
    int leadFrames() const { return lead; }
    /// Frames that process() takes at a time: fewer at low speeds, where each costs more.
    int chunk() const { return chunkFrames; }

    /// Requires: exactly chunk() frames.
    void process(std::span<const float> interleaved);
    /// Takes out what is ready, at most what `interleaved` holds; returns frames.
    std::size_t retrieve(std::span<float> interleaved);
    std::size_t available() const;

private:
    void dropStart();

    std::unique_ptr<RubberBand::RubberBandStretcher> band;
    AttackGraft attacks;
    FaintHiss treble;
    std::size_t channelCount;
    int chunkFrames = 256;
    int lead = 0;
    std::size_t toDrop = 0;
    /// One plane a channel, each of maxBlock frames.
    std::vector<float> planes;
};

} // namespace earwright
