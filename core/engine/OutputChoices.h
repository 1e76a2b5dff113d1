// The devices there are to play on, and the rates they play at.
#pragma once

#include "core/engine/DeviceReport.h"
#include "core/engine/SoundHost.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <vector>

namespace earwright {

/// Rates are found out once for each device, since asking takes long.
///
/// Threads: list() and findRates() by the thread that calls PortAudio; choices() by any, waits for neither.
class OutputChoices {
public:
    /// Lists the devices as PortAudio has them now.
    void list(const SoundTurn& turn);
    /// Finds out the rates of the device at a place of the list, from 0, in a turn of its own; nothing where
    /// devices were listed anew since. False behind the last device.
    bool findRates(std::size_t place);
    std::vector<DeviceChoice> choices() const;

private:
    mutable std::mutex guard;
    /// Guarded by `guard`.
    std::vector<DeviceChoice> listed;

    /// Of the thread that calls PortAudio: which listing it was, and what is known by the devices' names.
    std::uint64_t listing = 0;
    std::map<std::string, std::vector<int>> knownRates;
};

} // namespace earwright
