#include "core/engine/DeviceStory.h"

#include <cmath>

namespace earwright {

namespace {

using Clock = std::chrono::steady_clock;

/// Opening takes less, even where many devices are looked through.
constexpr std::chrono::seconds slowOpening{3};

std::string milliseconds(double seconds) {
    return std::to_string(std::lround(seconds * 1000)) + " ms";
}

} // namespace

DeviceStory::DeviceStory(DeviceState first) : openingSince(Clock::now()) {
    told.state = first;
}

void DeviceStory::happened(const std::string& message) {
    const auto now = std::chrono::duration_cast<std::chrono::nanoseconds>(Clock::now().time_since_epoch());
    if (told.events.size() == mostEvents) told.events.erase(told.events.begin());
    told.events.push_back({++eventCount, now.count(), told.state, message, told.underruns});
}

void DeviceStory::opening() {
    told.state = DeviceState::Opening;
    told.message.clear();
    openingSince = Clock::now();
    happened("Opening the sound device.");
}

void DeviceStory::running(const std::string& name, const std::string& remark, int rateHertz,
                          double latencySeconds) {
    told.state = DeviceState::Running;
    told.name = name;
    told.message = remark;
    told.rateHertz = rateHertz;
    told.latencySeconds = latencySeconds;
    const std::string what = "Playing to " + name + " at " + std::to_string(rateHertz) + " Hz with " +
                             milliseconds(latencySeconds) + " of latency.";
    happened(remark.empty() ? what : remark + " " + what);
}

void DeviceStory::trouble(DeviceState state, const std::string& name, const std::string& message) {
    const bool isNew = told.state != state || told.message != message;
    told.state = state;
    told.name = name;
    told.message = message;
    told.latencySeconds = 0;
    if (isNew) happened(message);
}

void DeviceStory::gaps(int underruns, double keptSeconds) {
    if (underruns == told.underruns) return;
    const int more = underruns - told.underruns;
    told.underruns = underruns;
    happened((more == 1 ? std::string("A gap in the sound") : std::to_string(more) + " gaps in the sound") +
             "; " + milliseconds(keptSeconds) + " are kept ready now.");
}

void DeviceStory::askedForMore(double latencySeconds) {
    told.state = DeviceState::Opening;
    openingSince = Clock::now();
    happened("The sound device keeps running dry; asking it for " + milliseconds(latencySeconds) +
             " of latency.");
}

DeviceReport DeviceStory::report() const {
    DeviceReport now = told;
    if (now.state == DeviceState::Opening && Clock::now() - openingSince > slowOpening)
        now.message = device_words::hangs;
    return now;
}

} // namespace earwright
