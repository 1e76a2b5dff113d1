#include "app/batch/PlayCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/EventLog.h"
#include "app/batch/OverwrittenInput.h"
#include "app/batch/PlayScript.h"
#include "core/check/StudyPlaying.h"
#include "core/engine/Engine.h"
#include "core/engine/Input.h"
#include "core/result/Result.h"
#include "core/sound/Recording.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <thread>
#include <utility>

namespace earwright::batch {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

constexpr auto devicePatience = 5s;
constexpr auto takePatience = 5s;
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

    /// Error: a step that could not be carried out, or a recording of a take that failed.
    Result<Done> run(const std::vector<PlayStep>& steps) {
        const auto start = Clock::now();
        events.begin(start);
        for (const PlayStep& step : steps) {
            listenUntil(start + inClock(step.at));
            if (step.verb->quits) return finishTake();
            step.verb->carryOut(scripted, step);
            if (scripted.failure) return *scripted.failure;
        }
        const auto looseEnd = Clock::now() + inClock(looseEndSeconds);
        while (scripted.isLooping ? Clock::now() < looseEnd : engine.now().playing)
            listenUntil(Clock::now() + pollPeriod);
        return finishTake();
    }

private:
    static Clock::duration inClock(double seconds) {
        return std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
    }

    /// What was played until now is on its way in for a moment.
    Result<Done> finishTake() {
        engine.input().stopRecording();
        const auto end = Clock::now() + takePatience;
        while (engine.input().recording().isRunning && Clock::now() < end)
            listenUntil(Clock::now() + pollPeriod);
        events.look(engine);
        const std::string message = engine.input().recording().message;
        if (!message.empty()) return Error{ErrorKind::Device, message, ""};
        return Done{};
    }

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

/// The files a play command names.
struct PlayFiles {
    std::string audio;
    std::string script;
    std::string log;
    std::optional<std::string> events;
};

/// Error: the command line's fault.
Result<PlayFiles> filesIn(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--script", "--log", "--events"});
    if (!arguments) return arguments.error();
    const auto script = arguments->text("--script");
    const auto log = arguments->text("--log");
    if (!script || !log)
        return Error{ErrorKind::OutOfRange, "play needs the options --script and --log.", ""};
    const PlayFiles files{arguments->alone(0), *script, *log, arguments->text("--events")};
    if (const auto refused = overwrittenInput(files.log, {files.audio, files.script})) return *refused;
    if (!files.events) return files;
    if (const auto refused = overwrittenInput(*files.events, {files.audio, files.script})) return *refused;
    if (std::filesystem::weakly_canonical(*files.events) == std::filesystem::weakly_canonical(files.log))
        return Error{ErrorKind::OutOfRange, "--log and --events need a file each.", ""};
    return files;
}

/// Measures how the notes of the steps that ask for it are played in the recording.
Result<Done> measurePlaying(std::vector<PlayStep>& steps, const std::shared_ptr<Recording>& recording) {
    const auto asks = [](const PlayStep& step) { return step.verb->isAsPlayed; };
    if (std::none_of(steps.begin(), steps.end(), asks)) return Done{};
    const auto evidence = RecordingEvidence::listen(recording);
    if (!evidence) return evidence.error();
    for (PlayStep& step : steps) {
        if (!asks(step)) continue;
        auto played = earwright::measurePlaying(*step.study, step.study->notes, *evidence);
        if (!played) return played.error();
        step.played = *std::move(played);
    }
    return Done{};
}

Result<LogFile> openLog(const std::string& name) {
    LogFile log(std::fopen(name.c_str(), "w"));
    if (!log) return Error{ErrorKind::NotWritable, name + " cannot be written.", ""};
    return log;
}

} // namespace

int runPlay(std::span<const std::string> words) {
    const auto files = filesIn(words);
    if (!files) return complain(files.error(), exitUsage);
    const auto recording = Recording::open(files->audio);
    if (!recording) return complain(recording.error(), exitInput);
    auto steps = readPlayScript(files->script);
    if (!steps) return complain(steps.error(), exitInput);
    const auto measured = measurePlaying(*steps, *recording);
    if (!measured) return complain(measured.error(), exitInput);
    auto log = openLog(files->log);
    if (!log) return complain(log.error(), exitInput);
    auto events = files->events ? openLog(*files->events) : Result<LogFile>(LogFile());
    if (!events) return complain(events.error(), exitInput);

    ScriptedPlayer player(*recording, std::move(*log), std::move(*events));
    const DeviceReport device = player.waitForDevice();
    const auto outcome = player.run(*steps);
    if (!outcome) return complain(outcome.error(), exitInput);
    if (device.state == DeviceState::Running) return exitDone;
    const std::string message = device.message.empty() ? "The sound device does not answer." : device.message;
    return complain({ErrorKind::Device, message, ""}, exitInput);
}

} // namespace earwright::batch
