#include "core/midi/MidiKeyboard.h"

#include "core/midi/PortNames.h"

#include <algorithm>
#include <utility>

namespace earwright {

namespace {

constexpr std::size_t mostStrokes = 1024;

bool holds(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

} // namespace

MidiKeyboard::MidiKeyboard(std::unique_ptr<MidiPorts> given, KeyboardWish wish,
                           std::chrono::milliseconds betweenLooks)
    : ports(std::move(given)),
      pause(betweenLooks),
      wished(std::move(wish)),
      worker([this](const std::stop_token& stop) { work(stop); }) {}

MidiKeyboard::~MidiKeyboard() {
    worker.request_stop();
    worker.join();
}

void MidiKeyboard::use(const KeyboardWish& wish) {
    const std::scoped_lock lock(guard);
    wished = wish;
    isFresh = true;
    changed.notify_all();
}

KeyboardReport MidiKeyboard::report() const {
    const std::scoped_lock lock(guard);
    return told;
}

std::vector<KeyStroke> MidiKeyboard::take() {
    const std::scoped_lock lock(guard);
    return std::exchange(strokes, {});
}

void MidiKeyboard::hear(const KeyStroke& stroke) {
    const std::scoped_lock lock(guard);
    if (strokes.size() == mostStrokes) strokes.erase(strokes.begin());
    strokes.push_back(stroke);
}

void MidiKeyboard::work(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        KeyboardWish wish;
        {
            const std::scoped_lock lock(guard);
            wish = wished;
            isFresh = false;
        }
        look(wish);
        std::unique_lock lock(guard);
        changed.wait_for(lock, stop, pause, [this] { return isFresh; });
    }
    ports->close();
}

/// The guard is not held: ports may wait, and their listener takes it.
void MidiKeyboard::look(const KeyboardWish& wish) {
    const auto there = ports->names();
    const std::vector<std::string> names = there ? *there : std::vector<std::string>();
    const bool isLost = !opened.empty() && !holds(names, opened);
    if (isLost) {
        letGo();
        gone = std::exchange(opened, {});
    }
    const std::string wanted = wantedOf(wish, names);
    if (wanted != opened) {
        if (!opened.empty()) letGo();
        opened.clear();
        if (!wanted.empty() && takeUp(wanted)) gone.clear();
    }
    if (!wish.wanted) gone.clear();
    if (!there) trouble = there.error().message;
    if (there && wanted.empty()) trouble.clear();
    const std::scoped_lock lock(guard);
    told = {true, opened, gone, names, trouble};
}

std::string MidiKeyboard::wantedOf(const KeyboardWish& wish, const std::vector<std::string>& there) const {
    if (!wish.wanted) return {};
    if (!wish.name.empty()) return holds(there, wish.name) ? wish.name : std::string();
    // One in use stays in use when another is plugged in before it; one that came back goes first.
    for (const std::string& name : {opened, gone})
        if (!name.empty() && holds(there, name)) return name;
    const auto first = std::find_if_not(there.begin(), there.end(), isLoopOfSystem);
    return first == there.end() ? std::string() : *first;
}

void MidiKeyboard::letGo() {
    ports->close();
    hear({KeyStroke::Kind::AllUp, 0, 0, std::chrono::steady_clock::now()});
}

bool MidiKeyboard::takeUp(const std::string& name) {
    const auto done = ports->open(name, [this](std::span<const std::uint8_t> message, auto at) {
        if (const auto stroke = keyStrokeOf(message, at)) hear(*stroke);
    });
    trouble = done ? std::string() : done.error().message;
    if (done) opened = name;
    return done.ok();
}

} // namespace earwright
