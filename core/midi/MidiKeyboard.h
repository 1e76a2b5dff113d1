// A MIDI keyboard that may be plugged in and pulled out at any time.
#pragma once

#include "core/midi/KeyStroke.h"
#include "core/midi/MidiPorts.h"

#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <stop_token>
#include <string>
#include <thread>
#include <vector>

namespace earwright {

/// Which keyboard is to be listened to.
struct KeyboardWish {
    bool wanted = true;
    /// Empty: the first that is there.
    std::string name;
    friend bool operator==(const KeyboardWish&, const KeyboardWish&) = default;
};

struct KeyboardReport {
    /// Looked for at least once.
    bool isKnown = false;
    /// The one listened to; empty where there is none.
    std::string name;
    /// The one that was listened to and has gone, until it or another is there.
    std::string lost;
    /// All that are plugged in.
    std::vector<std::string> choices;
    /// Why none can be listened to, as a sentence; empty where nothing is wrong or simply none is there.
    std::string trouble;
    friend bool operator==(const KeyboardReport&, const KeyboardReport&) = default;
};

/// Looks for keyboards on a thread of its own, about twice a second, and listens to the one that is wished
/// for. One that goes lets all its keys go, and is taken again when it comes back.
///
/// Threads: all methods from one thread, none of them waits for the system. Ownership: holds the ports.
class MidiKeyboard {
public:
    /// Requires: ports.
    explicit MidiKeyboard(std::unique_ptr<MidiPorts> ports, KeyboardWish wish = {},
                          std::chrono::milliseconds betweenLooks = std::chrono::milliseconds(500));
    ~MidiKeyboard();
    MidiKeyboard(const MidiKeyboard&) = delete;
    MidiKeyboard& operator=(const MidiKeyboard&) = delete;

    void use(const KeyboardWish& wish);
    KeyboardReport report() const;
    /// What was played since this was asked last, in order. At most the last 1024 strokes are kept.
    std::vector<KeyStroke> take();

private:
    void work(const std::stop_token& stop);
    void look(const KeyboardWish& wish);
    std::string wantedOf(const KeyboardWish& wish, const std::vector<std::string>& there) const;
    void letGo();
    bool takeUp(const std::string& name);
    void hear(const KeyStroke& stroke);

    std::unique_ptr<MidiPorts> ports;
    const std::chrono::milliseconds pause;

    mutable std::mutex guard;
    std::condition_variable_any changed;
    // Under the guard.
    KeyboardWish wished;
    bool isFresh = false;
    KeyboardReport told;
    std::vector<KeyStroke> strokes;

    // The worker's.
    std::string opened;
    std::string gone;
    std::string trouble;

    std::jthread worker;
};

} // namespace earwright
