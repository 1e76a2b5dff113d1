#include "core/exchange/PlayedGraces.h"

#include <cstddef>
#include <cstdlib>
#include <utility>

namespace earwright {

namespace {

/// From one onset to the next, of a single grace note and of two. Sixteenths are as short at 250 quarters a
/// minute.
constexpr Seconds longestOfOne{0.06};
constexpr Seconds longestOfTwo{0.055};
/// Two notes that overlap no more than this are played one after the other.
constexpr Seconds overlap{0.06};
/// What a grace note leads to: until it ends, and until the next note begins.
constexpr Seconds shortestMain{0.05};
constexpr Seconds soonestBehind{0.08};
constexpr int widest = 4;

class PlayedGraceReader {
public:
    PlayedGraceReader(const Study& frame, std::vector<ForeignNote> line) : notes(std::move(line)) {
        for (const ForeignNote& note : notes)
            heard.push_back(frame.beatMap.seconds(Range<Beats>{note.begin, note.end}));
    }

    std::vector<ForeignNote> read() {
        std::vector<ForeignNote> made;
        for (std::size_t i = 0; i < notes.size();) {
            const std::size_t count = gracesFrom(i);
            ForeignNote main = notes[i + count];
            for (std::size_t grace = i; grace < i + count; ++grace)
                main.phrasing.graceNotes.push_back(notes[grace].pitch.midi);
            const bool goesOn = count > 0 && i > 0 && heard[i - 1].end + overlap >= heard[i].begin;
            if (goesOn && made.back().end < main.begin) made.back().end = main.begin;
            made.push_back(std::move(main));
            i += count + 1;
        }
        return made;
    }

private:
    /// How many notes from this one on are grace notes of the one behind them.
    std::size_t gracesFrom(std::size_t first) const {
        if (first > 0 && leadsOn(first - 1)) return 0;
        std::size_t end = first;
        while (leadsOn(end))
            ++end;
        const std::size_t count = end - first;
        if (count == 0 || count > 2 || !isMain(end)) return 0;
        for (std::size_t i = first; i < end; ++i)
            if (std::abs(notes[i].pitch.midi - notes[end].pitch.midi) > widest ||
                (count == 2 && untilNext(i) > longestOfTwo))
                return 0;
        return count;
    }

    Seconds untilNext(std::size_t i) const { return heard[i + 1].begin - heard[i].begin; }

    /// The next note follows so soon that this one is none of its own, and ends it.
    bool leadsOn(std::size_t i) const {
        return i + 1 < notes.size() && untilNext(i) > Seconds(0) && untilNext(i) <= longestOfOne &&
               heard[i].end <= heard[i + 1].begin + overlap && notes[i].pitch.midi != notes[i + 1].pitch.midi;
    }

    bool isMain(std::size_t i) const {
        return heard[i].end - heard[i].begin >= shortestMain &&
               (i + 1 == notes.size() || untilNext(i) >= soonestBehind);
    }

    std::vector<ForeignNote> notes;
    std::vector<Range<Seconds>> heard;
};

} // namespace

std::vector<ForeignNote> withPlayedGraces(const Study& frame, std::vector<ForeignNote> notes) {
    return PlayedGraceReader(frame, std::move(notes)).read();
}

} // namespace earwright
