#include "core/exchange/MidiTrack.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr std::uint32_t longestDelta = 0x0FFFFFFF;

std::string meta(int type, const std::string& data) {
    return std::string("\xFF") + static_cast<char>(type) +
           variableLength(static_cast<std::uint32_t>(data.size())) + data;
}

} // namespace

std::string variableLength(std::uint32_t value) {
    std::string bytes(1, static_cast<char>(value & 0x7F));
    for (value >>= 7; value > 0; value >>= 7)
        bytes.insert(bytes.begin(), static_cast<char>(0x80 | (value & 0x7F)));
    return bytes;
}

std::string bigEndian(std::uint64_t value, int bytes) {
    std::string text;
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8)
        text += static_cast<char>((value >> shift) & 0xFF);
    return text;
}

void MidiTrack::addMeta(std::int64_t tick, int type, const std::string& data, MidiRank rank) {
    add(tick, rank, meta(type, data));
}

void MidiTrack::addMessage(std::int64_t tick, MidiRank rank, int kind, int first, int second) {
    add(tick, rank,
        std::string{static_cast<char>(kind), static_cast<char>(first & 0x7F),
                    static_cast<char>(second & 0x7F)});
}

std::string MidiTrack::chunk() const {
    std::vector<Event> ordered = events;
    std::stable_sort(ordered.begin(), ordered.end(), [](const Event& a, const Event& b) {
        return a.tick != b.tick ? a.tick < b.tick : a.rank < b.rank;
    });
    std::string track;
    std::int64_t at = 0;
    for (const Event& event : ordered) {
        for (; event.tick - at > longestDelta; at += longestDelta)
            track += variableLength(longestDelta) + meta(0x01, "");
        track += variableLength(static_cast<std::uint32_t>(event.tick - at)) + event.bytes;
        at = event.tick;
    }
    track += variableLength(0) + meta(0x2F, "");
    return "MTrk" + bigEndian(track.size(), 4) + track;
}

std::string midiFile(const MidiTrack& track, int ticksPerQuarter) {
    return "MThd" + bigEndian(6, 4) + bigEndian(0, 2) + bigEndian(1, 2) +
           bigEndian(static_cast<std::uint64_t>(ticksPerQuarter), 2) + track.chunk();
}

} // namespace earwright
