// The MIDI inputs of the computer.
#pragma once

#include "core/result/Result.h"

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace earwright {

/// Threads: all methods from one thread, which may have to wait for the system; the listener is called from
/// one of the system's own, and no more once close() has returned.
class MidiPorts {
public:
    /// One whole message, and when it came.
    using Listener =
        std::function<void(std::span<const std::uint8_t> message, std::chrono::steady_clock::time_point at)>;

    virtual ~MidiPorts() = default;

    /// What is plugged in now, no name twice.
    virtual Result<std::vector<std::string>> names() = 0;
    /// Listens to the port of that name, and to none besides.
    virtual Result<Done> open(const std::string& name, Listener listener) = 0;
    /// Nothing happens where none is open.
    virtual void close() = 0;
};

/// Those of the system; null where the program was built without MIDI. They can't fail here: a system without
/// MIDI says so when it is asked for names.
std::unique_ptr<MidiPorts> systemMidiPorts();

} // namespace earwright
