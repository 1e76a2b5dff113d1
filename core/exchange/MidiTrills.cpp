#include "core/exchange/MidiTrills.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <utility>

namespace earwright {

namespace {

/// Of a quarter.
const Beats longest(1, 8);
/// Slower ones are counted.
constexpr Seconds slowest{0.13};
constexpr std::size_t fewest = 4;
/// A run may turn back once or twice; for so many notes it stays a trill.
constexpr std::size_t fewestInARun = 6;
constexpr int widest = 4;
constexpr std::size_t mostGraces = 3;

class TrillReader {
public:
    TrillReader(const Study& piece, std::vector<ForeignNote> line) : frame(piece), notes(std::move(line)) {}

    std::vector<ForeignNote> read() {
        std::vector<ForeignNote> made;
        for (std::size_t i = 0; i < notes.size();) {
            const std::size_t count = alternatingFrom(i);
            const bool isTrill = count >= (isInARun(i, i + count) ? fewestInARun : fewest);
            ForeignNote note = notes[i];
            if (isTrill) {
                endOfLast = i + count;
                note.end = notes[i + count - 1].end;
                note.phrasing.trill = std::abs(notes[i + 1].pitch.midi - note.pitch.midi);
                note.pitch.midi = std::min(note.pitch.midi, notes[i + 1].pitch.midi);
            }
            made.push_back(std::move(note));
            i += isTrill ? count : 1;
        }
        return made;
    }

private:
    /// How many notes from this one on take turns with it; 1 for itself.
    std::size_t alternatingFrom(std::size_t first) const {
        std::size_t end = first + 1;
        while (end < notes.size() && isShort(end - 1) && isShort(end) && goesOn(first, end))
            ++end;
        return end - first;
    }

    /// Whether another short note leads to the notes from `first` to before `end`, or follows them at once,
    /// that is no ornament of another note itself.
    bool isInARun(std::size_t first, std::size_t end) {
        const bool isBehindTrill = first > 0 && endOfLast == first;
        return (first > 0 && !isBehindTrill && leadsOn(first - 1)) || (leadsOn(end - 1) && !isOrnament(end));
    }

    bool leadsOn(std::size_t i) const { return isShort(i) && isFollowed(i) && isShort(i + 1); }

    bool isFollowed(std::size_t i) const {
        return i + 1 < notes.size() && notes[i + 1].begin == notes[i].end;
    }

    /// Whether trills begin here, or what may be grace notes: a few from a sixteenth or a triplet on.
    bool isOrnament(std::size_t first) {
        // What follows the first of many trills follows the others as well.
        if (first < endOfOrnaments) return true;
        std::size_t count = alternatingFrom(first);
        while (count >= fewest && count < fewestInARun && leadsOn(first + count - 1)) {
            first += count;
            count = alternatingFrom(first);
        }
        const bool isOne = count >= fewest || areGraces(first);
        if (isOne) endOfOrnaments = first + 1;
        return isOne;
    }

    bool areGraces(std::size_t first) const {
        std::size_t end = first;
        while (end < notes.size() && end - first <= mostGraces && isShort(end) && isFollowed(end))
            ++end;
        const std::int64_t parts = (notes[first].begin * 4 / frame.meter.beatUnit).denominator();
        const bool isOnLine = 4 % parts == 0 || 3 % parts == 0;
        return isOnLine && end - first <= mostGraces && end < notes.size() && !isShort(end);
    }

    bool isShort(std::size_t i) const {
        const ForeignNote& note = notes[i];
        const Range<Seconds> heard = frame.beatMap.seconds(Range<Beats>{note.begin, note.end});
        return (note.end - note.begin) * 4 / frame.meter.beatUnit <= longest &&
               heard.end - heard.begin <= slowest;
    }

    Beats lengthOf(std::size_t i) const { return notes[i].end - notes[i].begin; }

    /// Whether note `i` follows at once and is one of the two pitches in its turn.
    bool goesOn(std::size_t first, std::size_t i) const {
        // A longer one is not of the trill, but before the next note.
        const bool isLonger = lengthOf(i) > lengthOf(first) * 11 / 10;
        if (notes[i].begin != notes[i - 1].end || isLonger) return false;
        if (i - first >= 2) return notes[i].pitch.midi == notes[i - 2].pitch.midi;
        const int apart = std::abs(notes[i].pitch.midi - notes[first].pitch.midi);
        return apart >= 1 && apart <= widest;
    }

    const Study& frame;
    std::vector<ForeignNote> notes;
    /// Behind the trill found last; 0 before the first.
    std::size_t endOfLast = 0;
    /// Before this place trills follow each other, and nothing but an ornament follows them.
    std::size_t endOfOrnaments = 0;
};

} // namespace

std::vector<ForeignNote> withTrills(const Study& frame, std::vector<ForeignNote> notes) {
    return TrillReader(frame, std::move(notes)).read();
}

} // namespace earwright
