#include "core/exchange/MidiEvents.h"

#include <optional>

namespace earwright {

namespace {

/// Far beyond any music; keeps sums of delta times far from overflow.
constexpr std::int64_t furthestTick = std::int64_t{1} << 40;

/// Takes bytes from the front; once something is wrong it stays wrong.
class Bytes {
public:
    Bytes(std::string_view toRead, std::size_t offset) : left(toRead), position(offset) {}

    bool isEmpty() const { return left.empty(); }
    bool isBroken() const { return broken; }
    std::size_t place() const { return position; }

    std::string_view take(std::size_t count) {
        if (count > left.size()) {
            broken = true;
            count = left.size();
        }
        const std::string_view taken = left.substr(0, count);
        left.remove_prefix(count);
        position += count;
        return taken;
    }
    int peek() const { return left.empty() ? -1 : static_cast<unsigned char>(left.front()); }
    int byte() {
        const std::string_view one = take(1);
        return one.empty() ? 0 : static_cast<unsigned char>(one.front());
    }
    std::uint32_t number(int count) {
        std::uint32_t value = 0;
        for (int i = 0; i < count; ++i)
            value = value << 8 | static_cast<std::uint32_t>(byte());
        return value;
    }
    std::uint32_t variableLength() {
        std::uint32_t value = 0;
        for (int i = 0; i < 4; ++i) {
            const int next = byte();
            value = value << 7 | static_cast<std::uint32_t>(next & 0x7F);
            if (next < 0x80) return value;
        }
        broken = true;
        return 0;
    }
    /// A byte below 0x80.
    int data() {
        const int value = byte();
        if (value >= 0x80) broken = true;
        return value & 0x7F;
    }

private:
    std::string_view left;
    std::size_t position;
    bool broken = false;
};

class TrackReader {
public:
    TrackReader(std::string_view chunk, std::size_t offset) : bytes(chunk, offset) {}

    /// False where the track breaks the standard.
    bool read() {
        while (!hasEnded && !bytes.isEmpty()) {
            tick += bytes.variableLength();
            if (bytes.isBroken() || bytes.isEmpty() || tick > furthestTick) return false;
            if (!readEvent() || bytes.isBroken()) return false;
        }
        return hasEnded;
    }

    std::vector<MidiEvent> events;
    std::size_t place() const { return bytes.place(); }

private:
    /// The standard ends running status at meta events and exclusive messages. Some programs go on with it
    /// behind them, and there is nothing else that such bytes could mean.
    bool readEvent() {
        if (bytes.peek() < 0x80) return running != 0 && readMessage(running);
        const int status = bytes.byte();
        if (status == 0xFF) return readMeta();
        if (status == 0xF0 || status == 0xF7) {
            bytes.take(bytes.variableLength());
            return true;
        }
        if (status >= 0xF0) return false;
        running = status;
        return readMessage(status);
    }

    bool readMessage(int status) {
        const int kind = status & 0xF0;
        const int first = bytes.data();
        const int second = kind == 0xC0 || kind == 0xD0 ? 0 : bytes.data();
        events.push_back({tick, status, first, second, {}});
        return true;
    }

    bool readMeta() {
        const int type = bytes.data();
        const std::string_view data = bytes.take(bytes.variableLength());
        hasEnded = type == 0x2F;
        events.push_back({tick, 0xFF, type, 0, std::string(data)});
        return true;
    }

    Bytes bytes;
    std::int64_t tick = 0;
    int running = 0;
    bool hasEnded = false;
};

Error malformed(const std::string& name, std::size_t at, const std::string& reason) {
    return {ErrorKind::Malformed, name + " is damaged: " + reason + ".", "byte " + std::to_string(at)};
}

/// "RIFF", a length, "RMID", "data" and a length.
constexpr std::size_t wrapping = 20;

/// Whether it is a MIDI file in a RIFF form (MIDI Manufacturers Association, RP-029).
bool isWrapped(std::string_view text) {
    return text.size() > wrapping && text.starts_with("RIFF") && text.substr(8).starts_with("RMIDdata");
}

/// Sets how ticks are counted and gives what each is multiplied by; nothing where the division means nothing.
/// Frames are 24, 25 or 30 a second, and 29 stands for 30 in every 1.001 s (SMPTE 12M drop frame).
std::optional<std::int64_t> setDivision(MidiTracks& file, std::uint32_t division) {
    file.countsSeconds = division >= 0x8000;
    file.ticksPerQuarter = division;
    if (!file.countsSeconds) return division == 0 ? std::nullopt : std::optional<std::int64_t>(1);
    const std::int64_t frames = 256 - static_cast<std::int64_t>(division >> 8);
    const std::int64_t parts = division & 0xFF;
    const bool isRate = frames == 24 || frames == 25 || frames == 29 || frames == 30;
    if (!isRate || parts == 0) return std::nullopt;
    // Half a second a quarter: twice as many ticks, so that it is a whole number of them.
    file.ticksPerQuarter = frames == 29 ? 30 * parts * 1000 : frames * parts;
    return frames == 29 ? 2 * 1001 : 2;
}

} // namespace

bool isNoteOn(const MidiEvent& event) {
    return (event.status & 0xF0) == 0x90 && event.second > 0;
}

Result<MidiTracks> midiTracks(std::string_view text, const std::string& name) {
    Bytes bytes(text, 0);
    if (isWrapped(text)) bytes.take(wrapping);
    if (bytes.take(4) != "MThd") return Error{ErrorKind::Malformed, name + " is not a MIDI file.", "byte 0"};
    const std::uint32_t headerLength = bytes.number(4);
    if (headerLength < 6) return malformed(name, 4, "its header is too short");
    MidiTracks file;
    file.format = static_cast<int>(bytes.number(2));
    const std::uint32_t count = bytes.number(2);
    const std::uint32_t division = bytes.number(2);
    bytes.take(headerLength - 6);
    if (bytes.isBroken()) return malformed(name, bytes.place(), "it ends within its header");
    if (file.format > 2) return malformed(name, 8, "it is of a format that there is not");
    const auto scale = setDivision(file, division);
    if (!scale) return malformed(name, 12, "it counts no time that there is");
    while (!bytes.isEmpty()) {
        const std::size_t at = bytes.place();
        const std::string_view kind = bytes.take(4);
        const std::uint32_t length = bytes.number(4);
        const std::size_t begin = bytes.place();
        const std::string_view chunk = bytes.take(length);
        // Behind the last track some programs leave bytes that mean nothing.
        if (bytes.isBroken() && kind != "MTrk" && count > 0 && file.tracks.size() >= count) break;
        if (bytes.isBroken()) return malformed(name, at, "a chunk says that it is longer than the file");
        if (kind != "MTrk") continue;
        TrackReader track(chunk, begin);
        if (!track.read()) return malformed(name, track.place(), "a track breaks the rules of MIDI files");
        for (MidiEvent& event : track.events)
            event.tick *= *scale;
        file.tracks.push_back(std::move(track.events));
    }
    if (file.tracks.empty() || (file.format == 0 && file.tracks.size() != 1) || file.tracks.size() < count)
        return malformed(name, bytes.place(), "it has other tracks than its header says");
    return file;
}

} // namespace earwright
