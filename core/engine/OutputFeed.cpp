#include "core/engine/OutputFeed.h"

#include "core/engine/RealTimeSpan.h"
#include "core/engine/SteadyNow.h"

#include <algorithm>
#include <array>

namespace earwright {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t silentBlock = 512;

} // namespace

void OutputFeed::fill(std::span<float> stereo, double secondsUntilHeard, bool ranDry) {
    const RealTimeSpan realTime;
    const std::int64_t now = steadyNanoseconds();
    lastCallback.store(now, std::memory_order_release);
    const bool isFree = !isRendering.test_and_set(std::memory_order_acquire);
    if (!isFree || !isOn()) {
        if (isFree) isRendering.clear(std::memory_order_release);
        std::fill(stereo.begin(), stereo.end(), 0.0f);
        return;
    }
    const int hertz = rate.load(std::memory_order_relaxed);
    const bool isTold = secondsUntilHeard > 0 && secondsUntilHeard < 5;
    const double ahead = isTold ? secondsUntilHeard : typicalDelay;
    const std::int64_t firstHeard = isTold ? now + static_cast<std::int64_t>(ahead * 1e9) : 0;
    const auto length = static_cast<std::int64_t>(stereo.size() / 2) * 1'000'000'000 / hertz;
    if (gaps.called({now, firstHeard, length, ranDry})) mixer->countUnderrun();
    mixer->render(stereo, SampleRate{hertz}, now + static_cast<std::int64_t>(ahead * 1e9),
                  isNewStream.exchange(false, std::memory_order_relaxed));
    isRendering.clear(std::memory_order_release);
}

void OutputFeed::setRate(SampleRate announced) {
    rate.store(announced.hertz, std::memory_order_release);
}

void OutputFeed::begin(const OutputStream::Opened& stream) {
    gaps.restart(stream.roomSeconds);
    typicalDelay = stream.latencySeconds;
    isNewStream.store(true, std::memory_order_release);
    lastCallback.store(steadyNanoseconds(), std::memory_order_release);
    streamIsOn.store(true, std::memory_order_release);
}

std::chrono::nanoseconds OutputFeed::sinceCallback() const {
    return std::chrono::nanoseconds(steadyNanoseconds() - lastCallback.load(std::memory_order_acquire));
}

void OutputFeed::beginSilently() {
    silentClock.restart(Clock::now());
    isNewStream.store(true, std::memory_order_release);
}

void OutputFeed::renderSilently() {
    std::array<float, 2 * silentBlock> unheard;
    const int hertz = rate.load(std::memory_order_acquire);
    while (const std::size_t count = silentClock.due(Clock::now(), hertz, silentBlock)) {
        if (isRendering.test_and_set(std::memory_order_acquire)) return;
        if (!isOn())
            mixer->render(std::span(unheard).first(2 * count), SampleRate{hertz}, steadyNanoseconds(),
                          isNewStream.exchange(false, std::memory_order_relaxed));
        isRendering.clear(std::memory_order_release);
        silentClock.advance(count);
    }
}

} // namespace earwright
