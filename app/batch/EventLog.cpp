#include "app/batch/EventLog.h"

#include "core/engine/Input.h"

#include <algorithm>
#include <sstream>
#include <utility>

namespace earwright::batch {

namespace {

/// Output frames between two looks at what was heard; where something changed in between, the frame is
/// searched for.
constexpr std::int64_t lookFrames = 64;
/// Seconds after which what was not looked at is let go.
constexpr int mostSeconds = 1;

const char* nameOf(DeviceState state) {
    switch (state) {
    case DeviceState::Closed:
        return "closed";
    case DeviceState::Opening:
        return "opening";
    case DeviceState::Running:
        return "running";
    case DeviceState::Missing:
        return "missing";
    case DeviceState::Lost:
        return "lost";
    }
    return "";
}

const char* nameOf(Stage stage) {
    switch (stage) {
    case Stage::Sounding:
        return "sounding";
    case Stage::Gap:
        return "gap";
    case Stage::CountIn:
        return "countin";
    }
    return "";
}

std::string inNumbers(double value) {
    std::ostringstream text;
    text << value;
    return text.str();
}

bool isSame(const Heard& a, const Heard& b) {
    return a.playing == b.playing && a.pass == b.pass && a.yoursTurn == b.yoursTurn && a.speed == b.speed &&
           a.stage == b.stage;
}

} // namespace

EventLog::EventLog(LogFile file) : log(std::move(file)) {
    if (log) std::fputs("at_s\tevent\tvalue\toutput_frame\n", log.get());
}

void EventLog::look(Engine& engine) {
    if (!log) return;
    lookAtDevice(engine);
    lookAtTakes(engine);
    heardNow = engine.heardFrame();
    looked = std::max(looked, heardNow - OutputFrames(mostSeconds * rateHertz));
    for (; looked + OutputFrames(lookFrames) <= heardNow; looked += OutputFrames(lookFrames)) {
        const OutputFrames next = looked + OutputFrames(lookFrames);
        const auto then = engine.heardAt(next);
        if (!then || (last && isSame(*last, *then))) continue;
        OutputFrames first = next;
        for (OutputFrames frame = looked + OutputFrames(1); last && frame < next; frame += OutputFrames(1)) {
            const auto here = engine.heardAt(frame);
            if (!here || isSame(*here, *last)) continue;
            first = frame;
            break;
        }
        compare(*then, first);
    }
}

void EventLog::lookAtDevice(Engine& engine) {
    const DeviceReport report = engine.device();
    if (report.rateHertz > 0) rateHertz = report.rateHertz;
    for (const DeviceEvent& event : report.events) {
        if (event.number <= deviceEvents) continue;
        deviceEvents = event.number;
        const auto at = Clock::time_point(std::chrono::nanoseconds(event.steadyNanoseconds));
        std::string value = nameOf(event.state);
        if (!event.message.empty()) value += ": " + event.message;
        write(std::chrono::duration<double>(at - from).count(), "device", value, std::nullopt);
    }
    if (report.underruns != underruns) {
        underruns = report.underruns;
        write(secondsNow(), "underruns", std::to_string(underruns), std::nullopt);
    }
}

void EventLog::lookAtTakes(Engine& engine) {
    for (const RecordedTake& take : engine.input().finishedTakes())
        write(secondsNow(), "take",
              std::to_string(take.part.begin.value) + ' ' + std::to_string(take.part.end.value) + ' ' +
                  std::to_string(take.at.value) + ' ' + inNumbers(take.speed),
              std::nullopt);
}

void EventLog::compare(const Heard& now, OutputFrames frame) {
    const double at = secondsNow() - static_cast<double>((heardNow - frame).value) / rateHertz;
    if (!last || last->playing != now.playing) write(at, "playing", now.playing ? "on" : "off", frame);
    if (!last || last->speed != now.speed) write(at, "speed", inNumbers(now.speed), frame);
    if (!last || last->pass != now.pass) write(at, "pass", std::to_string(now.pass), frame);
    if (!last || last->stage != now.stage) write(at, "stage", nameOf(now.stage), frame);
    if (last && last->yoursTurn != now.yoursTurn)
        write(at, "turn", now.yoursTurn ? "yours" : "record", frame);
    last = now;
}

void EventLog::write(double at, const std::string& event, const std::string& value,
                     std::optional<OutputFrames> frame) {
    std::string clean = value;
    std::replace_if(
        clean.begin(), clean.end(), [](char letter) { return letter == '\t' || letter == '\n'; }, ' ');
    std::fprintf(log.get(), "%.4f\t%s\t%s\t%s\n", at, event.c_str(), clean.c_str(),
                 frame ? std::to_string(frame->value).c_str() : "");
}

double EventLog::secondsNow() const {
    return std::chrono::duration<double>(Clock::now() - from).count();
}

} // namespace earwright::batch
