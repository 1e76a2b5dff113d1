// What is told of the device: how it is now, and the last things that happened to it.
#pragma once

#include "core/engine/DeviceReport.h"

#include <chrono>
#include <string>

namespace earwright {

/// Threads: one at a time; the owner guards it.
class DeviceStory {
public:
    static constexpr std::size_t mostEvents = 48;

    explicit DeviceStory(DeviceState first);

    DeviceState state() const { return told.state; }
    /// Asked for: nothing is wrong yet, and what was open goes on until the new one is there.
    void opening();
    /// `remark` says where it is not quite what was wished for.
    void running(const std::string& name, const std::string& remark, int rateHertz, double latencySeconds);
    /// Missing or Lost. The same trouble said again is no event.
    void trouble(DeviceState state, const std::string& name, const std::string& message);
    /// Gaps so far; says how much is kept ready since. No event where no gap came.
    void gaps(int underruns, double keptSeconds);
    /// The device is asked for more room after so many gaps.
    void askedForMore(double latencySeconds);
    void remember(const std::string& deviceName) { told.name = deviceName; }

    /// Opening that takes very long is reported as trouble, too.
    DeviceReport report() const;

private:
    void happened(const std::string& message);

    DeviceReport told;
    std::int64_t eventCount = 0;
    std::chrono::steady_clock::time_point openingSince;
};

/// The sentences for the user.
namespace device_words {
inline constexpr const char* lost =
    "The sound device has gone; playing on silently and trying to get it back.";
inline constexpr const char* hangs =
    "The sound device does not answer; playing on silently until it does. Another device may help.";
} // namespace device_words

} // namespace earwright
