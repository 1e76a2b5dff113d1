#include "core/exchange/MidiParts.h"

#include "core/exchange/MidiText.h"

#include <array>
#include <string>

namespace earwright {

namespace {

constexpr int drumChannel = 9;

std::string nameOf(const MidiTracks& file, const MidiPart& part) {
    for (const MidiEvent& event : file.tracks[part.first])
        if (event.status == 0xFF && event.first == 0x03 && file.tracks.size() > 1)
            if (std::string name = partName(midiText(event.data), ""); !name.empty()) return name;
    return "channel " + std::to_string(part.second + 1);
}

} // namespace

std::vector<MidiPart> midiParts(const MidiTracks& file) {
    std::vector<MidiPart> parts;
    for (std::size_t track = 0; track < file.tracks.size(); ++track) {
        std::array<bool, 16> seen{};
        for (const MidiEvent& event : file.tracks[track]) {
            if (event.status == 0xFF || !isNoteOn(event)) continue;
            const int channel = event.status & 0x0F;
            if (!seen[static_cast<std::size_t>(channel)]) parts.emplace_back(track, channel);
            seen[static_cast<std::size_t>(channel)] = true;
        }
    }
    return parts;
}

std::vector<ForeignPart> namedParts(const MidiTracks& file, const std::vector<MidiPart>& parts) {
    std::vector<ForeignPart> list;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const MidiPart& part = parts[i];
        ForeignPart entry{nameOf(file, part), 0, part.second == drumChannel};
        // The parts of a track stand beside each other.
        const bool isShared = (i > 0 && parts[i - 1].first == part.first) ||
                              (i + 1 < parts.size() && parts[i + 1].first == part.first);
        const std::string channel = "channel " + std::to_string(part.second + 1);
        if (isShared && entry.name != channel) entry.name += ", " + channel;
        for (const MidiEvent& event : file.tracks[part.first])
            if (event.status != 0xFF && isNoteOn(event) && (event.status & 0x0F) == part.second)
                ++entry.notes;
        list.push_back(std::move(entry));
    }
    return list;
}

} // namespace earwright
