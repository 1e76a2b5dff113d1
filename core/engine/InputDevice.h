// The input device, kept at arm's length as the output is: opened only when asked for, watched, never waited
// for.
#pragma once

#include "core/engine/Capture.h"
#include "core/engine/InputReport.h"

#include <memory>
#include <thread>
#include <vector>

namespace earwright {

/// Opens, watches and closes a PortAudio stream that calls Capture::take().
///
/// A device that vanishes or stops calling back for a second is given up with a message and tried again,
/// after a second at first and then ever later, every sixteen seconds at most; what was captured until then
/// is not lost.
///
/// Threads: the methods by one thread; none waits for PortAudio. A thread of its own makes all PortAudio
///   calls; another is the watchdog. The destructor gives a hanging PortAudio one second and then leaves that
///   thread behind.
class InputDevice {
public:
    explicit InputDevice(std::shared_ptr<Capture> capture);
    ~InputDevice();
    InputDevice(const InputDevice&) = delete;
    InputDevice& operator=(const InputDevice&) = delete;

    /// Opens a device, or another one, or the same with other wishes.
    void open(const InputWish& wish);
    void close();
    /// Lists the devices without opening one; choices() has them a little later.
    void look();
    InputReport report() const;
    std::vector<InputChoice> choices() const;

private:
    class Body;
    std::shared_ptr<Body> body;
    std::thread watchdog;
};

} // namespace earwright
