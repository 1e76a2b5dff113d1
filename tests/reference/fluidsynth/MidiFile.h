// The smallest MIDI file that says what a test wants to hear.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstdint>
#include <filesystem>
#include <vector>

namespace earwright::tests {

/// Writes a file of format 0 (Standard MIDI Files 1.0) in which a tick is a ten-thousandth of a second.
class MidiFile {
public:
    /// Chooses the instrument of a channel, 0 to 127 (General MIDI 1).
    void program(int channel, int number);
    /// Detunes a channel by cents within a semitone (registered parameter 1, channel fine tuning).
    void tune(int channel, double cents);
    void note(int channel, Range<Seconds> range, int midi, int velocity);
    /// Moves the sounding pitch of a channel from here on by semitones, at most two either way (MIDI 1.0,
    /// pitch bend at its usual sensitivity).
    void bend(int channel, Seconds time, double semitones);
    void write(const std::filesystem::path& path) const;

private:
    struct Event {
        std::int64_t tick;
        int order;
        std::vector<std::uint8_t> bytes;
    };
    void add(Seconds time, int order, std::vector<int> bytes);

    std::vector<Event> events;
};

} // namespace earwright::tests
