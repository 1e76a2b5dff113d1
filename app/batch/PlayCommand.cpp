#include "app/batch/PlayCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/EventLog.h"
#include "app/batch/OverwrittenInput.h"
#include "app/batch/PlayScript.h"
#include "core/engine/Engine.h"
#include "core/sound/Recording.h"

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <thread>

namespace earwright::batch {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

constexpr auto devicePatience = 5s;
constexpr auto pollPeriod = 4ms;
/// A script without “quit” ends this long after its last step where a loop would go on for ever.
constexpr double looseEndSeconds = 2.0;
/// Nobody waits for an answer here; an unbroken sound is worth more.
constexpr double latencySeconds = 0.1;
constexpr int rowsPerSecond = 200;

/// Runs the steps and writes the logs.
class ScriptedPlayer {
public:
    ScriptedPlayer(std::shared_ptr<Recording> played, LogFile file, LogFile eventFile)
        : log(std::move(file)), events(std::move(eventFile)), scripted{engine, std::move(played)} {
        engine.setRecording(scripted.recording);
        std::fputs("output_frame\trecording_frame\n", log.get());
    }

    DeviceReport waitForDevice() {
        const auto end = Clock::now() + devicePatience;
        while (engine.device().state == DeviceState::Opening && Clock::now() < end)
            std::this_thread::sleep_for(5ms);
        return engine.device();
    }

    void run(const std::vector<PlayStep>& steps) {
        const auto start = Clock::now();
        events.begin(start);
        for (const PlayStep& step : steps) {
            const auto due =
                start + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(step.at));
            listenUntil(due);
            if (step.verb->quits) return;
            step.verb->carryOut(scripted, step);
        }
        const auto looseEnd = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                                 std::chrono::duration<double>(looseEndSeconds));
        while (scripted.isLooping ? Clock::now() < looseEnd : engine.now().playing)
            listenUntil(Clock::now() + pollPeriod);
    }

private:
    void listenUntil(Clock::time_point end) {
        for (;;) {
            writeHeard();
            events.look(engine);
            if (Clock::now() >= end) return;
            std::this_thread::sleep_until(std::min(end, Clock::now() + pollPeriod));
        }
    }

    void writeHeard() {
        const OutputFrames heard = engine.heardFrame();
        const int rate = engine.device().rateHertz;
        const OutputFrames step((rate > 0 ? rate : 48000) / rowsPerSecond);
        for (; nextRow <= heard; nextRow += step)
            if (const auto place = engine.placeAt(nextRow))
                std::fprintf(log.get(), "%lld\t%lld\n", static_cast<long long>(nextRow.value),
                             static_cast<long long>(place->value));
    }

    LogFile log;
    EventLog events;
    Engine engine{Engine::Options{{.latencySeconds = latencySeconds}, true}};
    ScriptedEngine scripted;
    OutputFrames nextRow;
};

} // namespace

int runPlay(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--script", "--log", "--events"});
    if (!arguments) return complain(arguments.error(), exitUsage);
    const auto script = arguments->text("--script");
    const auto logName = arguments->text("--log");
    if (!script || !logName)
        return complain({ErrorKind::OutOfRange, "play needs the options --script and --log.", ""}, exitUsage);
    const auto recording = Recording::open(arguments->alone(0));
    if (!recording) return complain(recording.error(), exitInput);
    const auto steps = readPlayScript(*script);
    if (!steps) return complain(steps.error(), exitInput);
    if (const auto refused = overwrittenInput(*logName, {arguments->alone(0), *script}))
        return complain(*refused, exitUsage);
    const auto eventName = arguments->text("--events");
    if (eventName)
        if (const auto refused = overwrittenInput(*eventName, {arguments->alone(0), *script}))
            return complain(*refused, exitUsage);
    if (eventName &&
        std::filesystem::weakly_canonical(*eventName) == std::filesystem::weakly_canonical(*logName))
        return complain({ErrorKind::OutOfRange, "--log and --events need a file each.", ""}, exitUsage);
    LogFile log(std::fopen(logName->c_str(), "w"));
    if (!log) return complain({ErrorKind::NotWritable, *logName + " cannot be written.", ""}, exitInput);
    LogFile events(eventName ? std::fopen(eventName->c_str(), "w") : nullptr);
    if (eventName && !events)
        return complain({ErrorKind::NotWritable, *eventName + " cannot be written.", ""}, exitInput);

    ScriptedPlayer player(*recording, std::move(log), std::move(events));
    const DeviceReport device = player.waitForDevice();
    player.run(*steps);
    if (device.state == DeviceState::Running) return exitDone;
    const std::string message = device.message.empty() ? "The sound device does not answer." : device.message;
    return complain({ErrorKind::Device, message, ""}, exitInput);
}

} // namespace earwright::batch
