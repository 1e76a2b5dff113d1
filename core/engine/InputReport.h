// What is wished from the input device, and what the interface shows of it.
#pragma once

#include "core/engine/Capture.h"
#include "core/engine/DeviceReport.h"

#include <string>

namespace earwright {

/// A device to play into. By name, since indices change when devices come and go.
struct InputWish {
    /// Empty: the system's default.
    std::string name;
    /// 0: the device's own.
    int rateHertz = 0;
    /// Wished from the device, 0.005 to 0.5; counts only for monitoring, since takes are lined up.
    double latencySeconds = 0.03;
    InputChannels channels = InputChannels::Both;
};

struct InputChoice {
    std::string name;
    bool isDefault = false;
    /// 1 or 2 of those it has.
    int channels = 1;
};

struct InputReport {
    /// Closed until one is asked for: a microphone is never opened unasked.
    DeviceState state = DeviceState::Closed;
    std::string name;
    /// One line for the user when something is wrong; empty otherwise.
    std::string message;
    int rateHertz = 0;
    int channels = 0;
    /// By the device's own account, from sound to callback.
    double latencySeconds = 0;
};

} // namespace earwright
