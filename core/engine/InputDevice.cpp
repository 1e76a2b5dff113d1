#include "core/engine/InputDevice.h"

#include "core/engine/InputStream.h"
#include "core/engine/RealTimeSpan.h"
#include "core/engine/SteadyNow.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>

namespace earwright {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

constexpr auto hangTime = 1s;
constexpr auto quitPatience = 1s;
constexpr auto firstRetry = 1s;
constexpr auto longestRetry = 16s;
constexpr auto slowOpening = 3s;
constexpr auto watchPeriod = 50ms;
constexpr unsigned long periodFrames = 256;

const char* const lostMessage = "The input has gone; it is taken up again as soon as it is back.";
const char* const hangMessage = "The input does not answer; it is tried again. Another input may help.";

} // namespace

/// Shared by the owner and both threads, so that a hanging thread never outlives what it uses.
class InputDevice::Body final : public InputListener, public SoundGuest {
public:
    explicit Body(std::shared_ptr<Capture> fed) : capture(std::move(fed)) {}

    void runDevice();
    void runWatchdog();
    void request(const std::optional<InputWish>& wish);
    void look();
    void quit();
    void waitForDevice();
    InputReport report() const;
    std::vector<InputChoice> choices() const;

    void streamGives(std::span<const float> interleaved, double secondsSinceCaptured) override;
    void streamEnded() override { ended.store(true, std::memory_order_release); }
    void soundHostRestarts(const SoundTurn& turn) override;

private:
    bool waitForWork();
    void doWhatIsAsked();
    void list(const SoundTurn& turn);
    void openAnew(SoundTurn& turn, const InputWish& wish, bool wasLost);
    void say(DeviceState state, const std::string& message);
    void giveUp(const char* message);

    const std::shared_ptr<Capture> capture;

    mutable std::mutex guard;
    std::condition_variable wake;
    std::condition_variable deviceThreadEnded;
    /// Guarded by `guard`.
    std::optional<InputWish> wanted;
    bool isRequested = false;
    bool isLooking = false;
    bool isQuitting = false;
    bool deviceThreadDone = false;
    Clock::duration retryAfter = firstRetry;
    Clock::time_point openingSince = Clock::now();
    InputReport shown;
    std::vector<InputChoice> listed;

    /// Touched in a turn with PortAudio only.
    InputStream stream;
    std::atomic<bool> isGuest{false};

    std::atomic<bool> isOn{false};
    std::atomic<bool> isNewStream{true};
    std::atomic<bool> ended{false};
    std::atomic<std::int64_t> lastCallback{0};
    std::atomic<int> rate{48000};
    std::atomic<int> channels{1};
};

void InputDevice::Body::streamGives(std::span<const float> interleaved, double secondsSinceCaptured) {
    const RealTimeSpan realTime;
    const std::int64_t now = steadyNanoseconds();
    lastCallback.store(now, std::memory_order_release);
    if (!isOn.load(std::memory_order_acquire)) return;
    const bool plausible = secondsSinceCaptured >= 0 && secondsSinceCaptured < 5;
    const auto since = static_cast<std::int64_t>((plausible ? secondsSinceCaptured : 0) * 1e9);
    capture->take(interleaved, channels.load(std::memory_order_relaxed),
                  SampleRate{rate.load(std::memory_order_relaxed)}, now - since,
                  isNewStream.exchange(false, std::memory_order_relaxed));
}

void InputDevice::Body::soundHostRestarts(const SoundTurn& turn) {
    isOn.store(false, std::memory_order_release);
    stream.close(turn);
    isGuest = false;
    const std::lock_guard lock(guard);
    // Taken up again by this device's own thread, once the other's turn is over.
    if (shown.state == DeviceState::Running) isRequested = true;
    wake.notify_all();
}

void InputDevice::Body::request(const std::optional<InputWish>& wish) {
    {
        const std::lock_guard lock(guard);
        wanted = wish;
        isRequested = true;
        retryAfter = firstRetry;
        shown.state = wish ? DeviceState::Opening : DeviceState::Closed;
        shown.message.clear();
        openingSince = Clock::now();
    }
    wake.notify_all();
}

void InputDevice::Body::look() {
    {
        const std::lock_guard lock(guard);
        isLooking = true;
    }
    wake.notify_all();
}

void InputDevice::Body::quit() {
    {
        const std::lock_guard lock(guard);
        isQuitting = true;
    }
    wake.notify_all();
}

void InputDevice::Body::waitForDevice() {
    std::unique_lock lock(guard);
    deviceThreadEnded.wait_for(lock, quitPatience, [this] { return deviceThreadDone; });
}

InputReport InputDevice::Body::report() const {
    const std::lock_guard lock(guard);
    InputReport now = shown;
    if (now.state == DeviceState::Opening && Clock::now() - openingSince > slowOpening)
        now.message = hangMessage;
    return now;
}

std::vector<InputChoice> InputDevice::Body::choices() const {
    const std::lock_guard lock(guard);
    return listed;
}

void InputDevice::Body::say(DeviceState state, const std::string& message) {
    const std::lock_guard lock(guard);
    // A newer wish has its own word to say.
    if (isRequested) return;
    shown.state = state;
    shown.message = message;
}

void InputDevice::Body::runDevice() {
    while (waitForWork())
        doWhatIsAsked();
    isOn.store(false, std::memory_order_release);
    if (isGuest) {
        SoundTurn turn;
        stream.close(turn);
        if (isGuest) turn.leave(*this);
    }
    {
        const std::lock_guard lock(guard);
        deviceThreadDone = true;
    }
    deviceThreadEnded.notify_all();
}

/// True when there is something to do; false when it is time to go.
bool InputDevice::Body::waitForWork() {
    std::unique_lock lock(guard);
    const auto isDue = [this] { return isQuitting || isRequested || isLooking; };
    for (;;) {
        if (shown.state == DeviceState::Lost) {
            if (!wake.wait_for(lock, retryAfter, isDue))
                retryAfter = std::min<Clock::duration>(2 * retryAfter, longestRetry);
            return !isQuitting;
        }
        wake.wait(lock, [&] { return isDue() || shown.state == DeviceState::Lost; });
        if (isQuitting) return false;
        if (isDue()) return true;
    }
}

void InputDevice::Body::doWhatIsAsked() {
    std::optional<InputWish> wish;
    bool wasLost = false;
    bool onlyLooks = false;
    {
        const std::lock_guard lock(guard);
        wish = wanted;
        wasLost = shown.state == DeviceState::Lost;
        onlyLooks = !isRequested && !wasLost;
        isRequested = isLooking = false;
    }
    if (!onlyLooks) isOn.store(false, std::memory_order_release);
    SoundTurn turn;
    if (onlyLooks) return list(turn);
    stream.close(turn);
    if (isGuest) turn.leave(*this);
    isGuest = false;
    list(turn);
    if (!wish) return;
    // The output is not interrupted to look for an input that comes back by itself, only when the user asks.
    const bool isThere = InputStream::choose(turn, *wish).ok();
    if (!isThere && (!wasLost || !turn.hasGuests())) {
        turn.listAnew();
        list(turn);
    }
    turn.enter(*this);
    isGuest = true;
    openAnew(turn, *wish, wasLost);
}

void InputDevice::Body::list(const SoundTurn& turn) {
    std::vector<InputChoice> found = InputStream::choices(turn);
    const std::lock_guard lock(guard);
    listed = std::move(found);
}

void InputDevice::Body::openAnew(SoundTurn& turn, const InputWish& wish, bool wasLost) {
    const DeviceState failed = wasLost ? DeviceState::Lost : DeviceState::Missing;
    const auto chosen = InputStream::choose(turn, wish);
    if (!chosen) return say(failed, wasLost ? lostMessage : chosen.error().message);
    rate.store(chosen->rate.hertz, std::memory_order_release);
    channels.store(chosen->channels, std::memory_order_release);
    capture->choose(wish.channels);
    ended.store(false, std::memory_order_release);
    lastCallback.store(steadyNanoseconds(), std::memory_order_release);
    const auto latency =
        stream.open(turn, *chosen, std::clamp(wish.latencySeconds, 0.005, 0.5), periodFrames, *this);
    if (!latency) return say(failed, latency.error().message);
    // Opening may have taken longer than the watchdog waits.
    lastCallback.store(steadyNanoseconds(), std::memory_order_release);
    isNewStream.store(true, std::memory_order_release);
    isOn.store(true, std::memory_order_release);
    const std::lock_guard lock(guard);
    retryAfter = firstRetry;
    if (!isRequested)
        shown = {DeviceState::Running, chosen->name, "", chosen->rate.hertz, chosen->channels, *latency};
}

void InputDevice::Body::giveUp(const char* message) {
    isOn.store(false, std::memory_order_release);
    {
        const std::lock_guard lock(guard);
        if (shown.state != DeviceState::Running) return;
        shown.state = DeviceState::Lost;
        shown.message = message;
    }
    wake.notify_all();
}

void InputDevice::Body::runWatchdog() {
    for (;;) {
        {
            std::unique_lock lock(guard);
            wake.wait_for(lock, watchPeriod, [this] { return isQuitting; });
            if (isQuitting) return;
        }
        if (!isOn.load(std::memory_order_acquire)) continue;
        const auto silence =
            std::chrono::nanoseconds(steadyNanoseconds() - lastCallback.load(std::memory_order_acquire));
        if (ended.load(std::memory_order_acquire))
            giveUp(lostMessage);
        else if (silence > hangTime)
            giveUp(hangMessage);
    }
}

InputDevice::InputDevice(std::shared_ptr<Capture> capture)
    : body(std::make_shared<Body>(std::move(capture))), watchdog([this] { body->runWatchdog(); }) {
    // This thread holds the body, so that it can be left behind where PortAudio keeps it.
    std::thread([shared = body] { shared->runDevice(); }).detach();
}

InputDevice::~InputDevice() {
    body->quit();
    watchdog.join();
    body->waitForDevice();
}

void InputDevice::open(const InputWish& wish) {
    body->request(wish);
}

void InputDevice::close() {
    body->request(std::nullopt);
}

void InputDevice::look() {
    body->look();
}

InputReport InputDevice::report() const {
    return body->report();
}

std::vector<InputChoice> InputDevice::choices() const {
    return body->choices();
}

} // namespace earwright
