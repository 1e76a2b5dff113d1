// One instant of the record sustained, in place of the record itself.
#pragma once

#include "core/engine/HeldInstant.h"
#include "core/engine/Power.h"
#include "core/engine/RecordPart.h"
#include "core/engine/SampleFifo.h"
#include "core/sound/RealTransform.h"
#include "core/sound/Resampler.h"

#include <memory>
#include <span>
#include <vector>

namespace earwright {

/// Sounds a HeldInstant without pulsing: frames of constant magnitudes, each peak's phase moving on at its
/// own frequency, overlap by seven eighths. Transposed by resampling; time stands still anyway.
///
/// Threads: one at a time (the engine's worker). start() reads the disk and allocates.
/// Units: interleaved frames in the recording's own channels at the output rate.
class HeldPart {
public:
    /// Holds the sound of `start.from`; its speed and loop do not matter.
    void start(const RecordStart& start);
    /// Turns the sound down to what the recording has there for longer than an instant, where it is above.
    void keepBelow(const Power& most);
    void produce(std::span<float> interleaved);
    int channels() const { return channelCount; }

private:
    void addFrame();
    void renderChannel(std::size_t channel);
    void advance();

    int channelCount = 2;
    HeldInstant instant;
    std::unique_ptr<RealTransform> transform;
    std::unique_ptr<Resampler> resampler;
    std::vector<float> window;
    float gain = 1;
    /// Phase gained so far by each peak.
    std::vector<double> phases;
    std::vector<std::complex<float>> turns;
    /// Interleaved sum of overlapping frames.
    std::vector<float> overlap;
    SampleFifo atFileRate;
    SampleFifo ready;
    std::vector<float> block;
};

} // namespace earwright
