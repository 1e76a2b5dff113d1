#include "core/exchange/MidiGraces.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <utility>

namespace earwright {

namespace {

/// Of a quarter.
const Beats longest(1, 8);
/// Nobody counts what is shorter; a player only hears that something comes before the note.
constexpr Seconds longestHeard{0.09};
constexpr std::size_t mostGraces = 3;
constexpr int widest = 4;

class GraceReader {
public:
    GraceReader(const Study& piece, std::vector<ForeignNote> line, const std::optional<ToldSwing>& how)
        : frame(piece), notes(std::move(line)), told(how) {}

    std::vector<ForeignNote> read() {
        std::vector<ForeignNote> made;
        for (std::size_t i = 0; i < notes.size();) {
            const std::size_t count = gracesFrom(i);
            ForeignNote note = notes[i + count];
            const Beats begin = notes[i].begin;
            if (count > 0 && isOnLine(written(begin))) {
                note.begin = begin;
            } else if (count > 0 && !made.empty() && made.back().end == begin) {
                made.back().end = note.begin;
            }
            for (std::size_t grace = i; grace < i + count; ++grace)
                note.phrasing.graceNotes.push_back(notes[grace].pitch.midi);
            made.push_back(std::move(note));
            i += count + 1;
        }
        return made;
    }

private:
    Beats quarters(const Beats& beats) const { return beats * 4 / frame.meter.beatUnit; }

    /// How many notes from this one on are grace notes of the one behind them.
    std::size_t gracesFrom(std::size_t first) const {
        if (first > 0 && isShort(first - 1) && leadsOn(first - 1)) return 0;
        std::size_t end = first;
        while (end < notes.size() && isShort(end) && leadsOn(end))
            ++end;
        const std::size_t count = end - first;
        if (count == 0 || count > mostGraces || end == notes.size() || !isAlone(end)) return 0;
        const ForeignNote& main = notes[end];
        const bool isLonger = main.end - main.begin >= (main.begin - notes[first].begin) * 2;
        for (std::size_t i = first; i < end; ++i)
            if (std::abs(notes[i].pitch.midi - main.pitch.midi) > widest) return 0;
        const Beats begin = written(notes[first].begin);
        const bool takesTime = isOnLine(begin) && isNoStronger(main.begin, begin);
        return isLonger && (takesTime || isOffAllLines(begin)) ? count : 0;
    }

    bool isShort(std::size_t i) const {
        const ForeignNote& note = notes[i];
        const Range<Seconds> heard = frame.beatMap.seconds(Range<Beats>{note.begin, note.end});
        return isAlone(i) && quarters(lengthOf(note)) <= longest && heard.end - heard.begin <= longestHeard;
    }

    /// As written where it begins and ends there; a swung sixteenth is one, however short.
    Beats lengthOf(const ForeignNote& note) const {
        const bool isWritten = isOnSixteenth(written(note.begin)) && isOnSixteenth(written(note.end));
        return isWritten ? written(note.end) - written(note.begin) : note.end - note.begin;
    }

    bool leadsOn(std::size_t i) const {
        return i + 1 < notes.size() && notes[i + 1].begin == notes[i].end && isAlone(i + 1);
    }

    bool isAlone(std::size_t i) const {
        const bool hasBefore = i > 0 && notes[i - 1].begin == notes[i].begin;
        return !hasBefore && (i + 1 == notes.size() || notes[i + 1].begin != notes[i].begin);
    }

    Beats written(const Beats& place) const { return told ? told->written(place) : place; }

    /// Where notes usually begin: on sixteenths and triplets.
    bool isOnLine(const Beats& place) const {
        return isOnSixteenth(place) || 3 % quarters(place).denominator() == 0;
    }
    bool isOnSixteenth(const Beats& place) const { return 4 % quarters(place).denominator() == 0; }

    /// What leads to a stronger place, such as from the last sixteenth to the beat, is counted up to it.
    bool isNoStronger(const Beats& place, const Beats& than) const {
        return quarters(place).denominator() >= quarters(than).denominator();
    }

    bool isOffAllLines(const Beats& place) const {
        const std::int64_t parts = quarters(place).denominator();
        return 8 % parts != 0 && 12 % parts != 0;
    }

    const Study& frame;
    std::vector<ForeignNote> notes;
    const std::optional<ToldSwing>& told;
};

} // namespace

std::vector<ForeignNote> withGraceNotes(const Study& frame, std::vector<ForeignNote> notes,
                                        const std::optional<ToldSwing>& told) {
    return GraceReader(frame, std::move(notes), told).read();
}

} // namespace earwright
