// The sound device, kept at arm's length: whatever it does, the program plays on and nobody waits for it.
#pragma once

#include "core/engine/DeviceReport.h"
#include "core/engine/Mixer.h"

#include <memory>
#include <thread>
#include <vector>

namespace earwright {

/// Opens, watches and closes a PortAudio stream that calls Mixer::render().
///
/// While no device runs, a silent clock renders in its place, so positions move on and the program stays
/// usable; while one is opened anew by wish, the sound stands still for up to two seconds instead, so that
/// nothing is missed. A device that vanishes or stops calling back for a second is given up with a message
/// and tried again every few seconds.
///
/// Threads: the methods by one thread; none waits for PortAudio. A thread of its own makes all PortAudio
///   calls (they may hang as long as a sound server does); another is clock and watchdog. The destructor
///   gives a hanging PortAudio one second and then leaves that thread behind.
class OutputDevice {
public:
    struct Options {
        DeviceWish wish;
        /// False: the silent clock only.
        bool useSound = true;
        unsigned long periodFrames = 256;
    };

    OutputDevice(std::shared_ptr<Mixer> mixer, const Options& options);
    ~OutputDevice();
    OutputDevice(const OutputDevice&) = delete;
    OutputDevice& operator=(const OutputDevice&) = delete;

    /// Looks for devices anew and opens the one wished for. Numbers out of range are brought into it.
    void open(const DeviceWish& wish);
    DeviceReport report() const;
    std::vector<DeviceChoice> choices() const;

private:
    class Body;
    std::shared_ptr<Body> body;
    std::thread clock;
};

} // namespace earwright
