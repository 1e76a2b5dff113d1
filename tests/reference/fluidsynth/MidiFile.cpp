#include "tests/reference/fluidsynth/MidiFile.h"

#include <algorithm>
#include <cmath>
#include <fstream>

namespace earwright::tests {

namespace {

using Bytes = std::vector<std::uint8_t>;

void appendNumber(Bytes& bytes, std::uint32_t number, int length) {
    for (int i = length - 1; i >= 0; --i)
        bytes.push_back(static_cast<std::uint8_t>(number >> (8 * i)));
}

/// Seven bits a byte, the highest first, all but the last marked.
void appendDelta(Bytes& bytes, std::int64_t delta) {
    Bytes reversed{static_cast<std::uint8_t>(delta & 0x7f)};
    for (delta >>= 7; delta > 0; delta >>= 7)
        reversed.push_back(static_cast<std::uint8_t>(0x80 | (delta & 0x7f)));
    bytes.insert(bytes.end(), reversed.rbegin(), reversed.rend());
}

} // namespace

void MidiFile::add(Seconds time, int order, std::vector<int> bytes) {
    Event event{std::llround(time.value * 10000), order, {}};
    for (const int byte : bytes)
        event.bytes.push_back(static_cast<std::uint8_t>(byte));
    events.push_back(std::move(event));
}

void MidiFile::program(int channel, int number) {
    add(Seconds(0), 0, {0xC0 | channel, number});
}

void MidiFile::tune(int channel, double cents) {
    // 8192 is in tune, a semitone is 8192 steps (MIDI 1.0, RPN 00 01).
    const int value = 8192 + static_cast<int>(std::lround(cents / 100 * 8192));
    for (const auto& [control, data] : {std::pair{101, 0}, {100, 1}, {6, value >> 7}, {38, value & 127}})
        add(Seconds(0), 1, {0xB0 | channel, control, data});
}

void MidiFile::note(int channel, Range<Seconds> range, int midi, int velocity) {
    add(range.begin, 3, {0x90 | channel, midi, velocity});
    add(range.end, 2, {0x80 | channel, midi, 0});
}

void MidiFile::bend(int channel, Seconds time, double semitones) {
    const int value = std::clamp(8192 + static_cast<int>(std::lround(semitones * 4096)), 0, 16383);
    add(time, 2, {0xE0 | channel, value & 127, value >> 7});
}

void MidiFile::write(const std::filesystem::path& path) const {
    std::vector<Event> sorted = events;
    std::stable_sort(sorted.begin(), sorted.end(), [](const Event& a, const Event& b) {
        return std::pair(a.tick, a.order) < std::pair(b.tick, b.order);
    });
    // Tempo: a quarter note is a second.
    Bytes track{0, 0xFF, 0x51, 3, 0x0F, 0x42, 0x40};
    std::int64_t last = 0;
    for (const Event& event : sorted) {
        appendDelta(track, event.tick - last);
        track.insert(track.end(), event.bytes.begin(), event.bytes.end());
        last = event.tick;
    }
    // A second to die away.
    appendDelta(track, 10000);
    track.insert(track.end(), {0xFF, 0x2F, 0});
    Bytes file{'M', 'T', 'h', 'd', 0, 0, 0, 6, 0, 0, 0, 1, 0x27, 0x10, 'M', 'T', 'r', 'k'};
    appendNumber(file, static_cast<std::uint32_t>(track.size()), 4);
    file.insert(file.end(), track.begin(), track.end());
    std::ofstream(path, std::ios::binary)
        .write(reinterpret_cast<const char*>(file.data()), static_cast<std::streamsize>(file.size()));
}

} // namespace earwright::tests
