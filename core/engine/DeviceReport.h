// The sound device in plain values: what is wished for, what there is to choose from, and how it goes.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace earwright {

/// What the user wishes of a device.
struct DeviceWish {
    /// PortAudio index, valid until devices are listed again, or −1 for the system's default. Only the first
    /// opening goes by it; from then on the device is found by its name.
    int index = -1;
    /// 0 for the device's own rate. Where the device refuses a rate its own is used, and said.
    int rateHertz = 0;
    /// Mean delay from rendering to ear, 0.01 to 0.5; less answers quicker, more is safer on a busy machine.
    /// Doubled, up to 0.32 s, while the device keeps running dry.
    double latencySeconds = 0.08;
    /// The device as it was called when it was chosen; goes before the index. Where no device of this name
    /// is there, the system's default plays in its place, and that is said.
    std::string name{};
    friend bool operator==(const DeviceWish&, const DeviceWish&) = default;
};

/// A device to choose from. Index as PortAudio counts, valid until devices are listed again.
struct DeviceChoice {
    int index = -1;
    std::string name;
    bool isDefault = false;
    /// What it can play at, of the usual rates from 44,100 to 192,000, in rising order. Empty while it is not
    /// known yet.
    std::vector<int> rates;
    /// What it takes by itself.
    int ownRateHertz = 0;
    /// The shortest it advises.
    double leastLatencySeconds = 0;
};

enum class DeviceState {
    Closed, ///< nothing asked for yet
    Opening,
    Running,
    Missing, ///< no device, or it refuses: the program runs on silently
    Lost,    ///< it was running and vanished or hangs
};

/// Something that happened to the device, for a log.
struct DeviceEvent {
    /// Counted from 1 since the engine was made, without gaps.
    std::int64_t number = 0;
    /// On the steady clock.
    std::int64_t steadyNanoseconds = 0;
    DeviceState state = DeviceState::Closed;
    /// The line for the user, or in plain words what changed.
    std::string message;
    /// All gaps so far.
    int underruns = 0;
};

/// What the interface shows of the device.
struct DeviceReport {
    DeviceState state = DeviceState::Closed;
    /// The device's own name; empty when none is open.
    std::string name;
    /// One line for the user when something is wrong; empty otherwise.
    std::string message;
    int rateHertz = 0;
    /// Gaps in the sound since the engine was made: late callbacks and sound that was not ready.
    int underruns = 0;
    /// What the device granted; 0 when none is open.
    double latencySeconds = 0;
    /// Sound kept ready ahead of the device.
    double bufferSeconds = 0;
    /// Gaps made the engine keep more ready, or ask the device for more room, than at first.
    bool grown = false;
    /// The last things that happened, oldest first, a few dozen at most.
    std::vector<DeviceEvent> events;
};

} // namespace earwright
