#include "core/engine/Capture.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace earwright {

namespace {

/// A converter's last steps: what reaches them was cut off.
constexpr float fullScale = 0.9999f;

} // namespace

void Capture::take(std::span<const float> interleaved, int channels, SampleRate rate,
                   std::int64_t capturedNanoseconds, bool newStream) {
    if (newStream) {
        clock.restart();
        ++stream;
    }
    countLost(capturedNanoseconds, rate.hertz);
    clock.tick(next, capturedNanoseconds, rate.hertz);
    const std::size_t part = InputBlock::mostFrames * static_cast<std::size_t>(channels);
    while (!interleaved.empty()) {
        const auto first = interleaved.first(std::min(part, interleaved.size()));
        keep(first, channels, rate.hertz);
        interleaved = interleaved.subspan(first.size());
    }
    counted.store(next, std::memory_order_relaxed);
}

/// Frames that never came are counted all the same, so that stamps stay true to time.
void Capture::countLost(std::int64_t capturedNanoseconds, int rateHertz) {
    const auto late = clock.lateness(next, capturedNanoseconds);
    if (!late || *late < StreamClock::jumpNanoseconds) return;
    next += std::llround(*late * 1e-9 * rateHertz);
}

void Capture::keep(std::span<const float> interleaved, int channels, int rateHertz) {
    const InputChannels wanted = chosen.load(std::memory_order_relaxed);
    InputBlock block;
    block.first = InputFrames(next);
    block.stream = stream;
    block.rateHertz = rateHertz;
    block.channels = wanted == InputChannels::Both ? channels : 1;
    block.frames = interleaved.size() / static_cast<std::size_t>(channels);
    const auto wide = static_cast<std::size_t>(channels);
    const std::size_t from = wanted == InputChannels::Second ? wide - 1 : 0;
    std::array<float, InputBlock::mostFrames> mono{};
    for (std::size_t i = 0; i < block.frames; ++i) {
        const float* frame = interleaved.data() + i * wide;
        mono[i] = wanted == InputChannels::Both ? 0.5f * (frame[0] + frame[wide - 1]) : frame[from];
        if (block.channels == 2)
            std::copy_n(frame, 2, block.samples.begin() + static_cast<std::ptrdiff_t>(2 * i));
        else
            block.samples[i] = channels == 1 ? frame[0] : mono[i];
    }
    measure(block);
    monitoring->write(std::span(mono).first(block.frames), SampleRate{rateHertz});
    if (isKept.load(std::memory_order_acquire) && kept.freeSpace() > 0) kept.write({&block, 1});
    next += static_cast<std::int64_t>(block.frames);
}

void Capture::measure(const InputBlock& block) {
    float loudest = 0;
    std::int64_t full = 0;
    for (std::size_t i = 0; i < block.frames * static_cast<std::size_t>(block.channels); ++i) {
        loudest = std::max(loudest, std::abs(block.samples[i]));
        if (std::abs(block.samples[i]) >= fullScale) ++full;
    }
    if (loudest > peak.load(std::memory_order_relaxed)) peak.store(loudest, std::memory_order_relaxed);
    if (full > 0) clipped.fetch_add(full, std::memory_order_relaxed);
}

} // namespace earwright
