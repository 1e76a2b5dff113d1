// MIDI inputs that a test plugs in, pulls out and plays.
#pragma once

#include "core/midi/MidiPorts.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <mutex>
#include <string>
#include <vector>

namespace earwright::tests {

/// What the ports share with the test; outlives them. Threads: any.
class FakeCables {
public:
    /// All at once.
    void plug(const std::vector<std::string>& names) {
        const std::scoped_lock lock(guard);
        plugged.insert(plugged.end(), names.begin(), names.end());
    }
    /// In front of those that are there.
    void plugFirst(const std::string& name) {
        const std::scoped_lock lock(guard);
        plugged.insert(plugged.begin(), name);
    }
    /// What is played there reaches nobody any more, not even once it is plugged in again.
    void pull(const std::string& name) {
        const std::scoped_lock lock(guard);
        std::erase(plugged, name);
        if (opened == name) listener = nullptr;
    }
    void refuse(const std::string& why) {
        const std::scoped_lock lock(guard);
        refusal = why;
    }
    void breakDown(const std::string& why) {
        const std::scoped_lock lock(guard);
        broken = why;
    }
    /// As the wire would bring it, to whoever listens to that port.
    void send(const std::string& name, std::vector<std::uint8_t> message,
              std::chrono::steady_clock::time_point at = std::chrono::steady_clock::now()) {
        const std::scoped_lock lock(guard);
        if (listener && opened == name) listener(message, at);
    }
    bool isOpen(const std::string& name) {
        const std::scoped_lock lock(guard);
        return listener && opened == name;
    }

private:
    friend class FakePorts;
    std::mutex guard;
    std::vector<std::string> plugged;
    std::string refusal;
    std::string broken;
    std::string opened;
    MidiPorts::Listener listener;
};

class FakePorts : public MidiPorts {
public:
    explicit FakePorts(FakeCables& shared) : cables(shared) {}
    ~FakePorts() override { close(); }

    Result<std::vector<std::string>> names() override {
        const std::scoped_lock lock(cables.guard);
        if (!cables.broken.empty()) return Error{ErrorKind::Device, cables.broken, {}};
        return cables.plugged;
    }
    Result<Done> open(const std::string& name, Listener wanted) override {
        const std::scoped_lock lock(cables.guard);
        if (!cables.refusal.empty()) return Error{ErrorKind::Device, cables.refusal, {}};
        cables.opened = name;
        cables.listener = std::move(wanted);
        return Done{};
    }
    void close() override {
        const std::scoped_lock lock(cables.guard);
        cables.listener = nullptr;
    }

private:
    FakeCables& cables;
};

} // namespace earwright::tests
