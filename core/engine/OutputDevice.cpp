#include "core/engine/OutputDevice.h"

#include "core/engine/OutputStream.h"
#include "core/engine/SilentClock.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <cstring>
#include <mutex>
#include <optional>
#include <thread>

namespace earwright {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

constexpr auto hangTime = 1s;
constexpr auto quitPatience = 1s;
constexpr auto firstRetry = 1s;
constexpr auto longestRetry = 16s;
/// Opening takes less, even where many devices are looked through.
constexpr auto slowOpening = 3s;
constexpr auto clockPeriod = 5ms;
constexpr auto watchPeriod = 50ms;
/// So many gaps within so long a time mean that the device is asked for more room.
constexpr int tooManyGaps = 3;
constexpr auto gapWindow = 5s;
constexpr double longestLatency = 0.32;
constexpr std::size_t silentBlock = 512;

std::int64_t nowNanoseconds() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(Clock::now().time_since_epoch()).count();
}

const char* const lostMessage = "The sound device has gone; playing on silently and trying to get it back.";
const char* const hangMessage =
    "The sound device does not answer; playing on silently until it does. Another device may help.";

} // namespace

/// Shared by the owner and both threads, so that a hanging thread never outlives what it uses.
class OutputDevice::Body final : public StreamListener {
public:
    Body(std::shared_ptr<Mixer> fed, const Options& wishes)
        : mixer(std::move(fed)), options(wishes), wantedIndex(wishes.index), latency(wishes.latencySeconds) {
        shown.state = wishes.useSound ? DeviceState::Opening : DeviceState::Closed;
    }

    void runDevice();
    void runClock();
    void request(int index);
    void quit();
    void waitForDevice();
    DeviceReport report() const;
    std::vector<DeviceChoice> choices() const;

    void streamWants(float* stereo, unsigned long frames, double secondsUntilHeard) override;
    void streamEnded() override;

private:
    void openAnew(std::unique_ptr<OutputStream>& stream, int index);
    void say(DeviceState state, const std::string& name, const std::string& message, int rateHertz);
    void giveUp(const char* message);
    void growWhereItRunsDry();
    void renderSilently();
    bool waitForWork();
    double periodSeconds() const {
        return static_cast<double>(options.periodFrames) / rate.load(std::memory_order_relaxed);
    }

    const std::shared_ptr<Mixer> mixer;
    const Options options;

    mutable std::mutex guard;
    std::condition_variable wake;
    std::condition_variable deviceThreadEnded;
    /// Guarded by `guard`.
    int wantedIndex;
    bool isRequested = true;
    bool isQuitting = false;
    bool deviceThreadDone = false;
    Clock::duration retryAfter = firstRetry;
    Clock::time_point openingSince = Clock::now();
    DeviceReport shown;
    std::vector<DeviceChoice> listed;

    /// The clock's thread only.
    SilentClock silentClock;
    int underrunsBefore = 0;
    Clock::time_point windowStart = Clock::now();

    /// Asked from the device now.
    std::atomic<double> latency;
    /// The stream may render; otherwise the silent clock does.
    std::atomic<bool> streamIsOn{false};
    /// Set anew with each stream, for Mixer::render().
    std::atomic<bool> isNewStream{true};
    /// Held while rendering, tried and never waited for.
    std::atomic_flag isRendering = ATOMIC_FLAG_INIT;
    std::atomic<std::int64_t> lastCallback{0};
    std::atomic<int> rate{48000};
};

void OutputDevice::Body::streamWants(float* stereo, unsigned long frames, double secondsUntilHeard) {
    const std::int64_t now = nowNanoseconds();
    const std::int64_t before = lastCallback.exchange(now, std::memory_order_acq_rel);
    // Systems seldom report it: a callback later than all that was waiting in the device has left a gap.
    const bool leftGap = static_cast<double>(now - before) * 1e-9 > latency.load() + periodSeconds();
    const bool mine =
        streamIsOn.load(std::memory_order_acquire) && !isRendering.test_and_set(std::memory_order_acquire);
    if (!mine) {
        std::memset(stereo, 0, frames * 2 * sizeof(float));
        return;
    }
    const double ahead = secondsUntilHeard > 0 && secondsUntilHeard < 5 ? secondsUntilHeard : latency.load();
    if (leftGap) mixer->countUnderrun();
    mixer->render({stereo, frames * 2}, SampleRate{rate.load(std::memory_order_relaxed)},
                  now + static_cast<std::int64_t>(ahead * 1e9),
                  isNewStream.exchange(false, std::memory_order_relaxed));
    isRendering.clear(std::memory_order_release);
}

void OutputDevice::Body::streamEnded() {
    streamIsOn.store(false, std::memory_order_release);
}

void OutputDevice::Body::request(int index) {
    if (!options.useSound) return;
    {
        const std::lock_guard lock(guard);
        wantedIndex = index;
        isRequested = true;
        retryAfter = firstRetry;
        shown.state = DeviceState::Opening;
        shown.message.clear();
        openingSince = Clock::now();
    }
    wake.notify_all();
}

void OutputDevice::Body::quit() {
    {
        const std::lock_guard lock(guard);
        isQuitting = true;
    }
    wake.notify_all();
}

void OutputDevice::Body::waitForDevice() {
    std::unique_lock lock(guard);
    if (!options.useSound) return;
    deviceThreadEnded.wait_for(lock, quitPatience, [this] { return deviceThreadDone; });
}

DeviceReport OutputDevice::Body::report() const {
    const std::lock_guard lock(guard);
    DeviceReport now = shown;
    now.underruns = mixer->underruns();
    if (now.state == DeviceState::Opening && Clock::now() - openingSince > slowOpening)
        now.message = hangMessage;
    return now;
}

std::vector<DeviceChoice> OutputDevice::Body::choices() const {
    const std::lock_guard lock(guard);
    return listed;
}

void OutputDevice::Body::say(DeviceState state, const std::string& name, const std::string& message,
                             int rateHertz) {
    const std::lock_guard lock(guard);
    shown.state = state;
    shown.name = name;
    shown.message = message;
    shown.rateHertz = rateHertz;
}

void OutputDevice::Body::runDevice() {
    std::unique_ptr<OutputStream> stream;
    while (waitForWork()) {
        int index = 0;
        {
            const std::lock_guard lock(guard);
            index = wantedIndex;
            isRequested = false;
        }
        openAnew(stream, index);
    }
    streamIsOn.store(false, std::memory_order_release);
    stream.reset();
    {
        const std::lock_guard lock(guard);
        deviceThreadDone = true;
    }
    deviceThreadEnded.notify_all();
}

/// True when there is a device to open; false when it is time to go.
bool OutputDevice::Body::waitForWork() {
    std::unique_lock lock(guard);
    const auto isDue = [this] { return isQuitting || isRequested; };
    for (;;) {
        if (shown.state == DeviceState::Lost) {
            const bool asked = wake.wait_for(lock, retryAfter, isDue);
            if (!asked) retryAfter = std::min<Clock::duration>(2 * retryAfter, longestRetry);
            return !isQuitting;
        }
        wake.wait(lock, [&] { return isDue() || shown.state == DeviceState::Lost; });
        if (isQuitting) return false;
        if (isRequested) return true;
    }
}

void OutputDevice::Body::openAnew(std::unique_ptr<OutputStream>& stream, int index) {
    streamIsOn.store(false, std::memory_order_release);
    bool wasLost = false;
    {
        const std::lock_guard lock(guard);
        wasLost = shown.state == DeviceState::Lost;
    }
    // Devices that came or went since are only seen by a library that starts anew.
    stream.reset();
    stream = std::make_unique<OutputStream>();
    {
        const std::lock_guard lock(guard);
        listed = stream->choices();
    }
    const auto chosen = stream->choose(index);
    if (!chosen) {
        say(wasLost ? DeviceState::Lost : DeviceState::Missing, "",
            wasLost ? lostMessage : chosen.error().message, 0);
        return;
    }
    rate.store(chosen->rate.hertz, std::memory_order_release);
    mixer->announceRate(chosen->rate);
    lastCallback.store(nowNanoseconds(), std::memory_order_release);
    const auto opened = stream->open(*chosen, latency.load(), options.periodFrames, *this);
    if (!opened) {
        say(wasLost ? DeviceState::Lost : DeviceState::Missing, chosen->name, opened.error().message, 0);
        return;
    }
    isNewStream.store(true, std::memory_order_release);
    lastCallback.store(nowNanoseconds(), std::memory_order_release);
    // First the sound, then the word: the watchdog takes a running device without sound for lost.
    streamIsOn.store(true, std::memory_order_release);
    say(DeviceState::Running, chosen->name, "", chosen->rate.hertz);
    const std::lock_guard lock(guard);
    retryAfter = firstRetry;
}

void OutputDevice::Body::giveUp(const char* message) {
    streamIsOn.store(false, std::memory_order_release);
    {
        const std::lock_guard lock(guard);
        if (shown.state != DeviceState::Running) return;
        shown.state = DeviceState::Lost;
        shown.message = message;
    }
    wake.notify_all();
}

void OutputDevice::Body::growWhereItRunsDry() {
    const int now = mixer->underruns();
    const bool isTooMuch = now - underrunsBefore >= tooManyGaps;
    if (!isTooMuch && Clock::now() - windowStart < gapWindow) return;
    underrunsBefore = now;
    windowStart = Clock::now();
    if (!isTooMuch || 2 * latency.load() > longestLatency) return;
    latency.store(2 * latency.load());
    {
        const std::lock_guard lock(guard);
        isRequested = true;
    }
    wake.notify_all();
}

void OutputDevice::Body::runClock() {
    bool wasSilent = false;
    for (;;) {
        {
            std::unique_lock lock(guard);
            wake.wait_for(lock, streamIsOn.load() ? watchPeriod : clockPeriod, [this] { return isQuitting; });
            if (isQuitting) return;
        }
        if (streamIsOn.load(std::memory_order_acquire)) {
            const auto silence =
                std::chrono::nanoseconds(nowNanoseconds() - lastCallback.load(std::memory_order_acquire));
            if (silence > hangTime) giveUp(hangMessage);
            growWhereItRunsDry();
            wasSilent = false;
            continue;
        }
        giveUp(lostMessage);
        if (!wasSilent) {
            silentClock.restart(Clock::now());
            isNewStream.store(true, std::memory_order_release);
        }
        wasSilent = true;
        renderSilently();
    }
}

void OutputDevice::Body::renderSilently() {
    std::array<float, 2 * silentBlock> unheard;
    const int hertz = rate.load(std::memory_order_acquire);
    while (const std::size_t count = silentClock.due(Clock::now(), hertz, silentBlock)) {
        if (isRendering.test_and_set(std::memory_order_acquire)) return;
        if (!streamIsOn.load(std::memory_order_acquire))
            mixer->render(std::span(unheard).first(2 * count), SampleRate{hertz}, nowNanoseconds(),
                          isNewStream.exchange(false, std::memory_order_relaxed));
        isRendering.clear(std::memory_order_release);
        silentClock.advance(count);
    }
}

OutputDevice::OutputDevice(std::shared_ptr<Mixer> mixer, const Options& options)
    : body(std::make_shared<Body>(std::move(mixer), options)), clock([this] { body->runClock(); }) {
    // This thread holds the body, so that it can be left behind where PortAudio keeps it.
    if (options.useSound) std::thread([shared = body] { shared->runDevice(); }).detach();
}

OutputDevice::~OutputDevice() {
    body->quit();
    clock.join();
    body->waitForDevice();
}

void OutputDevice::open(int index) {
    body->request(index);
}

DeviceReport OutputDevice::report() const {
    return body->report();
}

std::vector<DeviceChoice> OutputDevice::choices() const {
    return body->choices();
}

} // namespace earwright
