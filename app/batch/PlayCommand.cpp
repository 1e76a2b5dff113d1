#include "app/batch/PlayCommand.h"

#include "app/batch/Arguments.h"
#include "app/batch/OverwrittenInput.h"
#include "app/batch/PlayScript.h"
#include "core/engine/Engine.h"
#include "core/sound/Recording.h"

#include <chrono>
#include <cstdio>
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

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using LogFile = std::unique_ptr<std::FILE, CloseFile>;

/// Runs the steps and writes the log.
class ScriptedPlayer {
public:
    ScriptedPlayer(std::shared_ptr<Recording> played, LogFile file)
        : recording(std::move(played)), log(std::move(file)) {
        engine.setRecording(recording);
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
        for (const PlayStep& step : steps) {
            const auto due =
                start + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(step.at));
            listenUntil(due);
            if (step.kind == PlayStep::Kind::Quit) return;
            carryOut(step);
        }
        const auto looseEnd = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                                 std::chrono::duration<double>(looseEndSeconds));
        while (isLooping ? Clock::now() < looseEnd : engine.now().playing)
            listenUntil(Clock::now() + pollPeriod);
    }

private:
    void listenUntil(Clock::time_point end) {
        for (;;) {
            writeHeard();
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

    void carryOut(const PlayStep& step) {
        const auto place = [this](double seconds) { return recording->rate().frames(Seconds(seconds)); };
        switch (step.kind) {
        case PlayStep::Kind::Play:
            engine.play();
            break;
        case PlayStep::Kind::Pause:
            engine.pause();
            break;
        case PlayStep::Kind::Seek:
            engine.seek(place(step.value));
            break;
        case PlayStep::Kind::Speed:
            playing.speed = step.value;
            break;
        case PlayStep::Kind::Semitones:
            playing.semitones = static_cast<int>(step.value);
            break;
        case PlayStep::Kind::Cents:
            playing.cents = static_cast<int>(step.value);
            break;
        case PlayStep::Kind::Loop:
            engine.setLoop(Range<Frames>{place(step.value), place(step.loopEnd)});
            isLooping = true;
            break;
        case PlayStep::Kind::LoopOff:
            engine.setLoop(std::nullopt);
            isLooping = false;
            break;
        case PlayStep::Kind::Focus:
            engine.setFocus(step.focus);
            break;
        case PlayStep::Kind::Band:
            engine.setBand(step.band);
            break;
        case PlayStep::Kind::BandOff:
            engine.setBand(std::nullopt);
            break;
        case PlayStep::Kind::Hold:
            engine.hold(place(step.value));
            break;
        case PlayStep::Kind::HoldOff:
            engine.hold(std::nullopt);
            break;
        case PlayStep::Kind::Balance:
            engine.setBalance(step.value);
            break;
        case PlayStep::Kind::Quit:
            break;
        }
        engine.setPlaying(playing);
    }

    std::shared_ptr<Recording> recording;
    LogFile log;
    Engine engine{Engine::Options{{.latencySeconds = latencySeconds}, true}};
    Playing playing;
    OutputFrames nextRow;
    bool isLooping = false;
};

} // namespace

int runPlay(std::span<const std::string> words) {
    const auto arguments = Arguments::parse(words, 1, {"--script", "--log"});
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
    LogFile log(std::fopen(logName->c_str(), "w"));
    if (!log) return complain({ErrorKind::NotWritable, *logName + " cannot be written.", ""}, exitInput);

    ScriptedPlayer player(*recording, std::move(log));
    const DeviceReport device = player.waitForDevice();
    player.run(*steps);
    if (device.state == DeviceState::Running) return exitDone;
    const std::string message = device.message.empty() ? "The sound device does not answer." : device.message;
    return complain({ErrorKind::Device, message, ""}, exitInput);
}

} // namespace earwright::batch
