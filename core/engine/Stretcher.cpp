#include "core/engine/Stretcher.h"

#include "core/engine/StretchDelay.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <rubberband/RubberBandStretcher.h>

namespace earwright {

namespace {

using RubberBand::RubberBandStretcher;

constexpr std::size_t maxBlock = 1024;
constexpr int usualChunk = 256;
constexpr int slowChunk = 128;
constexpr double slowSpeed = 0.25;

// Pitch options of this engine are fixed at construction; high consistency lets the pitch go through zero
// without a jump in timing.
constexpr RubberBandStretcher::Options options =
    RubberBandStretcher::OptionProcessRealTime | RubberBandStretcher::OptionEngineFiner |
    RubberBandStretcher::OptionPitchHighConsistency | RubberBandStretcher::OptionChannelsTogether;

} // namespace

Stretcher::Stretcher(SampleRate rate, int channels)
    : band(std::make_unique<RubberBandStretcher>(static_cast<std::size_t>(rate.hertz),
                                                 static_cast<std::size_t>(channels), options)),
      attacks(rate, channels),
      channelCount(static_cast<std::size_t>(channels)),
      planes(maxBlock * channelCount) {
    assert(channels == 1 || channels == 2);
    band->setDebugLevel(0);
    band->setMaxProcessSize(usualChunk);
    start(1.0, 0.0);
}

Stretcher::~Stretcher() = default;

void Stretcher::start(double speed, double semitones) {
    band->reset();
    band->setTimeRatio(1.0 / speed);
    band->setPitchScale(std::exp2(semitones / 12.0));
    chunkFrames = speed < slowSpeed ? slowChunk : usualChunk;
    lead = static_cast<int>(band->getPreferredStartPad()) +
           static_cast<int>(std::lround(attackAdvance(speed, semitones)));
    toDrop = band->getStartDelay();
    treble = {};
    attacks.start(speed, semitones, lead);
}

void Stretcher::process(std::span<const float> interleaved) {
    const auto frames = static_cast<std::size_t>(chunkFrames);
    assert(interleaved.size() == frames * channelCount);
    const std::array<const float*, 2> in{planes.data(), planes.data() + (channelCount - 1) * maxBlock};
    for (std::size_t frame = 0; frame < frames; ++frame) {
        const float hiss = treble.next();
        for (std::size_t channel = 0; channel < channelCount; ++channel) {
            const float sample = interleaved[frame * channelCount + channel];
            // Silence stays silence.
            planes[channel * maxBlock + frame] = sample == 0.0f ? 0.0f : sample + hiss;
        }
    }
    attacks.feed(interleaved);
    band->process(in.data(), frames, false);
    dropStart();
}

void Stretcher::dropStart() {
    std::array<float*, 2> out{planes.data(), planes.data() + (channelCount - 1) * maxBlock};
    while (toDrop > 0) {
        const std::size_t ready = static_cast<std::size_t>(std::max(0, band->available()));
        const std::size_t part = std::min({toDrop, ready, maxBlock});
        if (part == 0) return;
        toDrop -= band->retrieve(out.data(), part);
    }
}

std::size_t Stretcher::available() const {
    return toDrop > 0 ? 0 : static_cast<std::size_t>(std::max(0, band->available()));
}

std::size_t Stretcher::retrieve(std::span<float> interleaved) {
    std::array<float*, 2> out{planes.data(), planes.data() + (channelCount - 1) * maxBlock};
    const std::size_t room = interleaved.size() / channelCount;
    std::size_t done = 0;
    while (done < room) {
        const std::size_t part = std::min({room - done, available(), maxBlock});
        if (part == 0) break;
        const std::size_t got = band->retrieve(out.data(), part);
        for (std::size_t frame = 0; frame < got; ++frame)
            for (std::size_t channel = 0; channel < channelCount; ++channel)
                interleaved[(done + frame) * channelCount + channel] = out[channel][frame];
        done += got;
    }
    attacks.apply(interleaved.first(done * channelCount));
    return done;
}

} // namespace earwright
