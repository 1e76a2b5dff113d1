#include "core/midi/MidiPorts.h"
#include "core/midi/PortNames.h"

#include <algorithm>
#include <rtmidi/RtMidi.h>
#include <unistd.h>

namespace earwright {

namespace {

using Clock = std::chrono::steady_clock;

/// The library prints what fails on the terminal unless somebody listens; names() and open() tell it.
void keepToOurselves(RtMidiError::Type, const std::string&, void*) {}

Error noMidi(const std::string& reason) {
    return {ErrorKind::Device, "This system has no MIDI: " + reason + ".", {}};
}

/// ALSA's where the library has it: left to choose, it would look for a JACK server whenever nothing is
/// plugged in.
RtMidi::Api apiToUse() {
    std::vector<RtMidi::Api> known;
    RtMidi::getCompiledApi(known);
    const bool hasAlsa = std::find(known.begin(), known.end(), RtMidi::LINUX_ALSA) != known.end();
    return hasAlsa ? RtMidi::LINUX_ALSA : RtMidi::UNSPECIFIED;
}

/// Where this file is missing or may not be used, the library would fail aloud.
bool hasSequencer() {
#ifdef __linux__
    return ::access("/dev/snd/seq", R_OK | W_OK) == 0;
#else
    return true;
#endif
}

class RtMidiPorts : public MidiPorts {
public:
    Result<std::vector<std::string>> names() override {
        if (const auto ready = makeReady(); !ready) return ready.error();
        const std::vector<std::string> all = ports();
        std::vector<std::string> names = plainPortNames(all);
        // One that was pulled and is back already has another number: nothing comes from the port that was
        // opened, so it counts as gone until it is closed.
        if (input->isPortOpen() && std::find(all.begin(), all.end(), openedPort) == all.end())
            std::erase(names, openedName);
        return names;
    }

    Result<Done> open(const std::string& name, Listener wanted) override {
        close();
        if (const auto ready = makeReady(); !ready) return ready.error();
        const std::vector<std::string> all = ports();
        const std::vector<std::string> known = plainPortNames(all);
        const auto found = std::find(known.begin(), known.end(), name);
        if (found == known.end())
            return Error{ErrorKind::NotFound, "The MIDI keyboard " + name + " is not plugged in.", {}};
        listener = std::move(wanted);
        openedPort = all[static_cast<std::size_t>(found - known.begin())];
        openedName = name;
        try {
            input->setCallback(&RtMidiPorts::hear, this);
            input->openPort(static_cast<unsigned>(found - known.begin()), "keyboard");
        } catch (const RtMidiError& error) {
            return refused(name, error.getMessage());
        }
        if (!input->isPortOpen()) return refused(name, "it may be in use by another program");
        return Done{};
    }

    void close() override {
        // Closing a port joins the thread that calls the listener, and forgets the callback with it.
        input.reset();
        listener = nullptr;
    }

private:
    static void hear(double, std::vector<unsigned char>* message, void* self) {
        if (message) static_cast<RtMidiPorts*>(self)->listener(*message, Clock::now());
    }

    Result<Done> refused(const std::string& name, const std::string& reason) {
        close();
        return Error{
            ErrorKind::Device, "The MIDI keyboard " + name + " could not be opened: " + reason + ".", {}};
    }

    Result<Done> makeReady() {
        if (input) return Done{};
        if (!hasSequencer()) return noMidi("/dev/snd/seq is not there, or may not be used by you");
        try {
            input = std::make_unique<RtMidiIn>(apiToUse(), "Earwright");
        } catch (const RtMidiError& error) {
            return noMidi(error.getMessage());
        }
        input->setErrorCallback(&keepToOurselves);
        return Done{};
    }

    std::vector<std::string> ports() {
        std::vector<std::string> all(input->getPortCount());
        for (unsigned port = 0; port < all.size(); ++port)
            all[port] = input->getPortName(port);
        return all;
    }

    Listener listener;
    /// As the system names it, and as the user does.
    std::string openedPort;
    std::string openedName;
    /// Last, so that nobody calls the listener once it has gone.
    std::unique_ptr<RtMidiIn> input;
};

} // namespace

std::unique_ptr<MidiPorts> systemMidiPorts() {
    return std::make_unique<RtMidiPorts>();
}

} // namespace earwright
