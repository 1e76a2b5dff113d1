// The bytes of a Standard MIDI File put together from events.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace earwright {

/// A number in seven-bit groups, the highest first. Requires: value < 2^28.
std::string variableLength(std::uint32_t value);

/// What goes first where events stand at one tick.
enum class MidiRank { Music, Ends, Bends, Begins, Last };

/// Collects the events of one track, in any order.
class MidiTrack {
public:
    void add(std::int64_t tick, MidiRank rank, std::string bytes) {
        events.push_back({tick, rank, std::move(bytes)});
    }
    /// A meta event: its type and data.
    void addMeta(std::int64_t tick, int type, const std::string& data, MidiRank rank = MidiRank::Music);
    /// A message of channel 1: its kind (0x90 is a note on) and its data, 0 to 127 each.
    void addMessage(std::int64_t tick, MidiRank rank, int kind, int first, int second);
    /// The track chunk with its end. Silences longer than a delta time can say are bridged by empty text.
    std::string chunk() const;

private:
    struct Event {
        std::int64_t tick;
        MidiRank rank;
        std::string bytes;
    };
    std::vector<Event> events;
};

/// A format 0 file: one track. Requires: 0 < ticksPerQuarter < 32768.
std::string midiFile(const MidiTrack& track, int ticksPerQuarter);

/// So many bytes, the highest first.
std::string bigEndian(std::uint64_t value, int bytes);

} // namespace earwright
