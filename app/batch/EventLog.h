// A log of what changed while a script played: passes, speeds, stages, and what happened to the device.
#pragma once

#include "core/engine/Engine.h"

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>

namespace earwright::batch {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using LogFile = std::unique_ptr<std::FILE, CloseFile>;

/// Rows `at_s event value output_frame`. at_s is the script's time; what is heard also has the output frame
/// from which it is heard, the others have an empty cell there.
class EventLog {
public:
    using Clock = std::chrono::steady_clock;

    /// Without a file it does nothing.
    explicit EventLog(LogFile file);
    /// at_s counts from here.
    void begin(Clock::time_point start) { from = start; }
    /// Writes what has changed; to be called every few milliseconds.
    void look(Engine& engine);

private:
    void lookAtDevice(Engine& engine);
    void lookAtTakes(Engine& engine);
    void compare(const Heard& now, OutputFrames frame);
    void write(double at, const std::string& event, const std::string& value,
               std::optional<OutputFrames> frame);
    double secondsNow() const;

    LogFile log;
    Clock::time_point from = Clock::now();
    std::int64_t deviceEvents = 0;
    int underruns = 0;
    std::optional<Heard> last;
    OutputFrames looked;
    OutputFrames heardNow;
    int rateHertz = 48000;
};

} // namespace earwright::batch
