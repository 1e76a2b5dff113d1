#include "core/exchange/StandardMidi.h"

#include "core/engraving/PageBars.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <vector>

namespace earwright {

namespace {

/// Divides by 2^6, 9, 5 and 7; the grid of pageLine() and the eighths of grace notes and trills fall on it.
constexpr std::int64_t ticksPerQuarter = 20160;
constexpr std::uint32_t longestDelta = 0x0FFFFFFF;
constexpr int lowestVelocity = 1;
constexpr int highestVelocity = 127;

std::string bigEndian(std::uint64_t value, int bytes) {
    std::string text;
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8)
        text += static_cast<char>((value >> shift) & 0xFF);
    return text;
}

std::string meta(int type, const std::string& data) {
    return std::string("\xFF") + static_cast<char>(type) +
           variableLength(static_cast<std::uint32_t>(data.size())) + data;
}

struct Event {
    std::int64_t tick;
    /// At one tick: what is said of the music, then ends, then begins.
    int rank;
    std::string bytes;
};

class TrackWriter {
public:
    TrackWriter(const Study& written, const std::vector<PageBar>& barsOfLine)
        : study(written), bars(barsOfLine) {}

    std::string write(const std::vector<PageNotes>& line) {
        addMusic();
        for (const PageNotes& together : line)
            for (const Note& note : together.notes)
                addNote(note, together.begin, together.end);
        // The file lasts to the end of its last bar.
        events.push_back({tick(bars.back().end), 3, meta(0x01, "")});
        std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) {
            return a.tick != b.tick ? a.tick < b.tick : a.rank < b.rank;
        });
        std::string track;
        std::int64_t at = 0;
        for (const Event& event : events) {
            // Longer silences than a delta time can say are bridged by empty text.
            for (; event.tick - at > longestDelta; at += longestDelta)
                track += variableLength(longestDelta) + meta(0x01, "");
            track += variableLength(static_cast<std::uint32_t>(event.tick - at)) + event.bytes;
            at = event.tick;
        }
        return track + variableLength(0) + meta(0x2F, "");
    }

private:
    std::int64_t tick(const Beats& place) const {
        return ((place - bars.front().begin) * (4 * ticksPerQuarter) / study.meter.beatUnit).floor();
    }

    void addMusic() {
        if (!study.title.empty()) events.push_back({0, 0, meta(0x03, study.title)});
        std::int64_t standing = 0;
        for (const PageBar& bar : bars) {
            if (&bar == &bars.front() || bar.meter != (&bar - 1)->meter) addMeter(bar);
            const std::int64_t tempo = microsecondsPerQuarter(bar);
            if (tempo != standing)
                events.push_back(
                    {tick(bar.begin), 0, meta(0x51, bigEndian(static_cast<std::uint64_t>(tempo), 3))});
            standing = tempo;
            for (const PlacedChord& chord : study.barChords(bar.number).chords) {
                const Beats place = bar.start + chord.withinBar;
                if (place >= bar.begin)
                    events.push_back({tick(place), 0, meta(0x01, toString(chord.symbol))});
            }
        }
    }

    void addMeter(const PageBar& bar) {
        std::string meter = bigEndian(static_cast<std::uint64_t>(bar.meter.beatsPerBar), 1);
        meter += static_cast<char>(std::bit_width(static_cast<unsigned>(bar.meter.beatUnit)) - 1);
        // A metronome click is 24 MIDI clocks, and a quarter has eight 32nds.
        events.push_back({tick(bar.begin), 0, meta(0x58, meter + "\x18\x08")});
    }

    std::int64_t microsecondsPerQuarter(const PageBar& bar) const {
        constexpr double at120 = 500'000;
        constexpr double slowest = 0xFFFFFF;
        if (!study.beatMap.hasTempo()) return static_cast<std::int64_t>(at120);
        const Range<Seconds> time = study.beatMap.seconds(Range<Beats>{bar.begin, bar.end});
        const double quarters = (bar.end - bar.begin).toDouble() * 4 / study.meter.beatUnit;
        return std::llround(std::clamp(1e6 * (time.end - time.begin).value / quarters, 1.0, slowest));
    }

    void addNote(const Note& note, Beats begin, const Beats& end) {
        const auto& grace = note.phrasing.graceNotes;
        const int velocity =
            std::clamp(static_cast<int>(std::lround(note.soundingLoudness() * highestVelocity)),
                       lowestVelocity, highestVelocity);
        if (!grace.empty()) {
            const auto count = static_cast<std::int64_t>(grace.size());
            const Beats each = std::min(Beats(1, 8), (end - begin) / (2 * count));
            for (const int midi : grace) {
                addSound(midi, velocity, begin, begin + each);
                begin += each;
            }
        }
        if (!note.phrasing.trill) return addSound(note.pitch.midi, velocity, begin, end);
        for (bool up = false; begin < end; up = !up) {
            const Beats until = std::min(end, begin + Beats(1, 8));
            addSound(note.pitch.midi + (up ? *note.phrasing.trill : 0), velocity, begin, until);
            begin = until;
        }
    }

    void addSound(int midi, int velocity, const Beats& begin, const Beats& end) {
        const auto message = [&](int status, int strength) {
            return bigEndian(static_cast<std::uint64_t>(status), 1) +
                   bigEndian(static_cast<std::uint64_t>(midi), 1) +
                   bigEndian(static_cast<std::uint64_t>(strength), 1);
        };
        if (midi < 0 || midi > 127 || tick(end) <= tick(begin)) return;
        events.push_back({tick(begin), 2, message(0x90, velocity)});
        events.push_back({tick(end), 1, message(0x80, 64)});
    }

    const Study& study;
    const std::vector<PageBar>& bars;
    std::vector<Event> events;
};

} // namespace

std::string variableLength(std::uint32_t value) {
    std::string bytes(1, static_cast<char>(value & 0x7F));
    for (value >>= 7; value > 0; value >>= 7)
        bytes.insert(bytes.begin(), static_cast<char>(0x80 | (value & 0x7F)));
    return bytes;
}

Result<std::string> standardMidi(const Study& study) {
    const std::vector<PageNotes> line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), 1);
    if (!bars) return bars.error();
    const std::string track = TrackWriter(study, *bars).write(line);
    return "MThd" + bigEndian(6, 4) + bigEndian(0, 2) + bigEndian(1, 2) + bigEndian(ticksPerQuarter, 2) +
           "MTrk" + bigEndian(track.size(), 4) + track;
}

} // namespace earwright
