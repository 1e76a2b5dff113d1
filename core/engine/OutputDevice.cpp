#include "core/engine/OutputDevice.h"

#include "core/engine/DeviceStory.h"
#include "core/engine/LatencyGrowth.h"
#include "core/engine/OutputChoices.h"
#include "core/engine/OutputFeed.h"
#include "core/engine/OutputStream.h"
#include "core/engine/SoundHost.h"
#include "core/engine/SteadyNow.h"
#include "core/engine/ThreadUrgency.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

namespace earwright {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

constexpr auto hangTime = 1s;
constexpr auto quitPatience = 1s;
constexpr auto firstRetry = 1s;
constexpr auto longestRetry = 4s;
/// So long the sound stands still for a device that is being opened.
constexpr auto openingPatience = 2s;
/// Times of hearing are known to about this.
constexpr auto playOutMargin = 40ms;
constexpr auto longestPlayOut = 1s;
constexpr auto fillPatience = 500ms;
constexpr auto clockPeriod = 5ms;
constexpr auto watchPeriod = 50ms;

DeviceWish inRange(DeviceWish wish) {
    const double wished = wish.latencySeconds;
    wish.latencySeconds = std::isfinite(wished) ? std::clamp(wished, 0.01, 0.5) : DeviceWish{}.latencySeconds;
    wish.rateHertz = std::clamp(wish.rateHertz, 0, 192000);
    return wish;
}

} // namespace

/// Shared by the owner and both threads, so that a hanging thread never outlives what it uses.
class OutputDevice::Body final : public StreamListener, public SoundGuest {
public:
    Body(std::shared_ptr<Mixer> fed, const Options& wishes)
        : mixer(std::move(fed)),
          options(wishes),
          wanted(inRange(wishes.wish)),
          story(wishes.useSound ? DeviceState::Opening : DeviceState::Closed),
          feed(mixer) {
        growth.restart(wanted.latencySeconds, 0, Clock::now());
    }

    void runDevice();
    void runClock();
    void request(const DeviceWish& wish);
    void quit();
    void waitForDevice();
    DeviceReport report() const;
    std::vector<DeviceChoice> choices() const { return known.choices(); }

    void streamWants(float* stereo, unsigned long frames, double secondsUntilHeard, bool ranDry) override;
    void streamEnded() override;
    void soundHostRestarts(const SoundTurn& turn) override;

private:
    bool waitForWork();
    void openAnew();
    void letItPlayOut();
    void openChosen(const SoundTurn& turn, const ChosenDevice& chosen, const DeviceWish& wish);
    Result<OutputStream::Opened> openAtARate(const SoundTurn& turn, const DeviceChoice& device,
                                             const DeviceWish& wish, std::string& remark);
    void waitUntilFilled();
    void say(const std::string& name, const std::string& message);
    void findAllRates();
    void giveUp(const char* message);
    void watchGaps();
    bool standsStill() const;

    const std::shared_ptr<Mixer> mixer;
    const Options options;

    mutable std::mutex guard;
    std::condition_variable wake;
    std::condition_variable deviceThreadEnded;
    /// Guarded by `guard`.
    DeviceWish wanted;
    bool isRequested = true;
    bool isQuitting = false;
    bool deviceThreadDone = false;
    Clock::duration retryAfter = firstRetry;
    Clock::time_point standingSince = Clock::now();
    DeviceStory story;
    LatencyGrowth growth;

    /// Each for the threads it names itself.
    OutputFeed feed;
    OutputChoices known;
    /// Touched in a turn only.
    OutputStream stream;
};

// The callback's thread. ----------------------------------------------------------------------------------

void OutputDevice::Body::streamWants(float* stereo, unsigned long frames, double secondsUntilHeard,
                                     bool ranDry) {
    feed.fill({stereo, 2 * frames}, secondsUntilHeard, ranDry);
}

void OutputDevice::Body::streamEnded() {
    feed.end();
}

// The owner. ----------------------------------------------------------------------------------------------

void OutputDevice::Body::request(const DeviceWish& wish) {
    if (!options.useSound) return;
    {
        const std::lock_guard lock(guard);
        wanted = inRange(wish);
        growth.restart(wanted.latencySeconds, mixer->underruns(), Clock::now());
        isRequested = true;
        retryAfter = firstRetry;
        standingSince = Clock::now();
        story.opening();
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
    DeviceReport now = story.report();
    const KeptAhead kept = mixer->keptAhead();
    now.underruns = mixer->underruns();
    now.bufferSeconds = kept.seconds();
    now.grown = growth.isGrown() || kept.seconds() > kept.atFirst();
    return now;
}

// The device's thread. ------------------------------------------------------------------------------------

void OutputDevice::Body::runDevice() {
    while (waitForWork()) {
        openAnew();
        findAllRates();
    }
    feed.end();
    {
        SoundTurn turn;
        stream.close(turn);
        turn.leave(*this);
    }
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
    const auto isTrouble = [this] {
        return story.state() == DeviceState::Lost || story.state() == DeviceState::Missing;
    };
    wake.wait(lock, [&] { return isDue() || isTrouble(); });
    if (!isDue()) {
        const bool asked = wake.wait_for(lock, retryAfter, isDue);
        if (!asked) retryAfter = std::min<Clock::duration>(2 * retryAfter, longestRetry);
    }
    return !isQuitting;
}

void OutputDevice::Body::openAnew() {
    DeviceWish wish;
    DeviceState before;
    {
        const std::lock_guard lock(guard);
        wish = wanted;
        wish.latencySeconds = growth.latencySeconds();
        before = story.state();
        isRequested = false;
    }
    const bool isAlive = feed.end();
    if (isAlive) letItPlayOut();
    SoundTurn turn;
    stream.close(turn);
    turn.leave(*this);
    // Devices that came or went since are only seen by a library that starts anew. Others who record are not
    // torn out of it for a device that was there a moment ago.
    if (!isAlive || !turn.hasGuests()) turn.listAnew();
    known.list(turn);
    const auto chosen = chooseDevice(choices(), wish, before == DeviceState::Lost);
    if (!chosen) return say("", chosen.error().message);
    turn.enter(*this);
    // The callback's thread, and the one that hands its frames to a sound server, are started in here and
    // take after this one.
    setThreadUrgency(Urgency::Device);
    openChosen(turn, *chosen, wish);
    setThreadUrgency(Urgency::Usual);
    if (!stream.isOpen()) turn.leave(*this);
}

/// The stream only gets silence by now; what was rendered before is still to be heard.
void OutputDevice::Body::letItPlayOut() {
    const HeardClock last = mixer->heard().clock();
    const double ahead = static_cast<double>((last.rendered - last.output).value) / last.rateHertz;
    const auto end = last.steadyNanoseconds + static_cast<std::int64_t>(ahead * 1e9) - steadyNanoseconds();
    const auto patience =
        std::clamp<Clock::duration>(std::chrono::nanoseconds(end) + playOutMargin, 0s, longestPlayOut);
    std::unique_lock lock(guard);
    wake.wait_for(lock, patience, [this] { return isQuitting; });
}

void OutputDevice::Body::openChosen(const SoundTurn& turn, const ChosenDevice& chosen,
                                    const DeviceWish& wish) {
    std::string remark = chosen.remark;
    const auto opened = openAtARate(turn, chosen.device, wish, remark);
    if (!opened) return say(chosen.device.name, opened.error().message);
    mixer->announceRoom(opened->roomSeconds);
    waitUntilFilled();
    const auto started = stream.start(turn);
    if (!started) return say(chosen.device.name, started.error().message);
    // First the sound, then the word: the watchdog takes a running device without sound for lost.
    feed.begin(*opened);
    const std::lock_guard lock(guard);
    story.running(chosen.device.name, remark, opened->rate.hertz, opened->latencySeconds);
    retryAfter = firstRetry;
    // From now on it is found by its name, unless another was wished for meanwhile.
    if (!isRequested && wanted.name.empty() && wanted.index >= 0) wanted.name = chosen.device.name;
}

Result<OutputStream::Opened> OutputDevice::Body::openAtARate(const SoundTurn& turn,
                                                             const DeviceChoice& device,
                                                             const DeviceWish& wish, std::string& remark) {
    const auto openAt = [&](int hertz) {
        mixer->announceRate(SampleRate{hertz});
        feed.setRate(SampleRate{hertz});
        return stream.open(turn, device, SampleRate{hertz}, wish.latencySeconds, options.periodFrames, *this);
    };
    if (wish.rateHertz <= 0 || wish.rateHertz == device.ownRateHertz) return openAt(device.ownRateHertz);
    auto wished = openAt(wish.rateHertz);
    if (wished) return wished;
    auto own = openAt(device.ownRateHertz);
    if (own)
        remark += (remark.empty() ? "" : " ") + device.name + " does not play at " +
                  std::to_string(wish.rateHertz) + " Hz; playing at " + std::to_string(device.ownRateHertz) +
                  " Hz.";
    return own;
}

/// A device that starts takes all it has room for at once.
void OutputDevice::Body::waitUntilFilled() {
    const auto end = Clock::now() + fillPatience;
    // The worker is given a moment to see that there is more to be done than before.
    std::this_thread::sleep_for(clockPeriod);
    while (!mixer->isFilled() && Clock::now() < end)
        std::this_thread::sleep_for(clockPeriod);
}

/// What went wrong with opening. What was lost stays lost, so that it is told from what never was there.
void OutputDevice::Body::say(const std::string& name, const std::string& message) {
    const std::lock_guard lock(guard);
    const bool wasLost = story.state() == DeviceState::Lost;
    if (wasLost)
        story.trouble(DeviceState::Lost, name, name.empty() ? device_words::lost : message);
    else
        story.trouble(DeviceState::Missing, name, message);
}

/// After the sound has started, so that nobody waits for it.
void OutputDevice::Body::findAllRates() {
    const auto mayGoOn = [this] {
        const std::lock_guard lock(guard);
        return story.state() == DeviceState::Running && !isQuitting && !isRequested;
    };
    for (std::size_t place = 0; mayGoOn() && known.findRates(place); ++place)
        ;
}

/// Another guest wants the devices listed anew, and has the turn.
void OutputDevice::Body::soundHostRestarts(const SoundTurn& turn) {
    if (!stream.isOpen()) return;
    {
        const std::lock_guard lock(guard);
        if (story.state() == DeviceState::Running) story.opening();
        standingSince = Clock::now();
        isRequested = true;
    }
    feed.end();
    stream.close(turn);
    wake.notify_all();
}

// The clock's thread. -------------------------------------------------------------------------------------

void OutputDevice::Body::giveUp(const char* message) {
    feed.end();
    {
        const std::lock_guard lock(guard);
        if (story.state() != DeviceState::Running) return;
        story.trouble(DeviceState::Lost, story.report().name, message);
    }
    wake.notify_all();
}

void OutputDevice::Body::watchGaps() {
    {
        const std::lock_guard lock(guard);
        story.gaps(mixer->underruns(), mixer->keptAhead().seconds());
        if (story.state() != DeviceState::Running || !growth.notice(mixer->underruns(), Clock::now())) return;
        story.askedForMore(growth.latencySeconds());
        standingSince = Clock::now();
        isRequested = true;
    }
    wake.notify_all();
}

bool OutputDevice::Body::standsStill() const {
    const std::lock_guard lock(guard);
    return story.state() == DeviceState::Opening && Clock::now() - standingSince < openingPatience;
}

void OutputDevice::Body::runClock() {
    bool wasSilent = false;
    for (;;) {
        {
            std::unique_lock lock(guard);
            wake.wait_for(lock, feed.isOn() ? watchPeriod : clockPeriod, [this] { return isQuitting; });
            if (isQuitting) return;
        }
        watchGaps();
        if (feed.isOn()) {
            if (feed.sinceCallback() > hangTime) giveUp(device_words::hangs);
            wasSilent = false;
            continue;
        }
        giveUp(device_words::lost);
        const bool isSilent = !standsStill();
        if (isSilent && !wasSilent) feed.beginSilently();
        if (isSilent) feed.renderSilently();
        wasSilent = isSilent;
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

void OutputDevice::open(const DeviceWish& wish) {
    body->request(wish);
}

DeviceReport OutputDevice::report() const {
    return body->report();
}

std::vector<DeviceChoice> OutputDevice::choices() const {
    return body->choices();
}

} // namespace earwright
