#include "core/engraving/PageBars.h"

#include "core/engraving/ValueReach.h"

#include <algorithm>
#include <bit>
#include <numeric>

namespace earwright {

namespace {

constexpr std::int64_t mostBars = 10'000;

/// A stretch of one bar with one thing in it, not yet cut into values; in beats of the bar's own meter, from
/// its start.
struct Stretch {
    Beats begin;
    Beats end;
    std::optional<std::size_t> event;
};

class BarWriter {
public:
    BarWriter(const std::vector<PageNotes>& written, PageBar& toFill)
        : line(written), meter(toFill.meter), bar(toFill) {}

    void fill(std::size_t& next) {
        const std::vector<Stretch> stretches = stretchesFrom(next);
        if (stretches.size() == 1 && !stretches.front().event && bar.number >= 1) {
            bar.pieces.push_back(
                {bar.begin, bar.end, NoteValue{0, false, {}}, {}, false, false, false, false});
            return;
        }
        for (const Stretch& stretch : stretches)
            cutAtTuplets(stretch, stretches);
    }

private:
    std::vector<Stretch> stretchesFrom(std::size_t& next) const {
        std::vector<Stretch> stretches;
        Beats at = bar.begin;
        for (; next < line.size() && line[next].begin < bar.end; ++next) {
            const Beats begin = std::max(line[next].begin, bar.begin);
            const Beats end = std::min(line[next].end, bar.end);
            if (begin > at) stretches.push_back({bar.ownBeats(at), bar.ownBeats(begin), {}});
            if (end > begin) stretches.push_back({bar.ownBeats(begin), bar.ownBeats(end), next});
            at = end;
            if (line[next].end > bar.end) break;
        }
        if (at < bar.end) stretches.push_back({bar.ownBeats(at), bar.ownBeats(bar.end), {}});
        return stretches;
    }

    /// A beat, or half a beat, that is divided by itself.
    struct Cell {
        Beats begin;
        /// So many of them make a beat.
        std::int64_t perBeat = 1;
        /// Its parts that notes begin on: 1 where nothing happens within it.
        std::int64_t parts = 1;

        bool isTuplet() const { return !std::has_single_bit(static_cast<std::uint64_t>(parts)); }
        Beats end() const { return begin + Beats(1, perBeat); }
    };

    static Cell cellOf(const Beats& begin, std::int64_t perBeat, const std::vector<Stretch>& stretches) {
        Cell cell{begin, perBeat, 1};
        for (const Stretch& stretch : stretches)
            if (stretch.begin >= begin && stretch.begin < cell.end())
                cell.parts = std::lcm(cell.parts, ((stretch.begin - begin) * perBeat).denominator());
        return cell;
    }

    /// The cell of a beat in which a place lies: half of it where only one half is a tuplet, as in three
    /// sixteenths of a triplet and an eighth; else all of it.
    static Cell cellAt(const Beats& place, const std::vector<Stretch>& stretches) {
        const Beats beat(place.floor());
        const Beats half(1, 2);
        const Cell whole = cellOf(beat, 1, stretches);
        const bool startsAtHalf =
            std::any_of(stretches.begin(), stretches.end(),
                        [&](const Stretch& stretch) { return stretch.begin == beat + half; });
        if (!whole.isTuplet() || !startsAtHalf) return whole;
        const Cell first = cellOf(beat, 2, stretches);
        const Cell second = cellOf(beat + half, 2, stretches);
        if (first.isTuplet() == second.isTuplet()) return whole;
        return place < second.begin ? first : second;
    }

    void cutAtTuplets(const Stretch& stretch, const std::vector<Stretch>& all) {
        Beats plainFrom = stretch.begin;
        Beats at = stretch.begin;
        while (at < stretch.end) {
            const Cell cell = cellAt(at, all);
            const Beats until = std::min(stretch.end, cell.end());
            if (cell.isTuplet()) {
                cutPlain(stretch, plainFrom, at);
                cutInTuplet(stretch, at, until, cell);
                plainFrom = until;
            }
            at = until;
        }
        cutPlain(stretch, plainFrom, stretch.end);
    }

    void cutInTuplet(const Stretch& stretch, Beats from, const Beats& to, const Cell& cell) {
        const auto normal = static_cast<std::int64_t>(std::bit_floor(static_cast<std::uint64_t>(cell.parts)));
        const Tuplet tuplet{static_cast<int>(cell.parts), static_cast<int>(normal)};
        while (from < to) {
            const std::int64_t units = ((to - from) * cell.perBeat * cell.parts).floor();
            const auto whole = static_cast<std::int64_t>(std::bit_floor(static_cast<std::uint64_t>(units)));
            const bool dotted = whole >= 2 && units >= whole + whole / 2;
            const Beats end = from + Beats(dotted ? whole + whole / 2 : whole, cell.parts * cell.perBeat);
            const auto denominator = static_cast<int>(meter.beatUnit * cell.perBeat * normal / whole);
            add(stretch, from, end, {denominator, dotted, tuplet});
            bar.pieces.back().startsTuplet = from == cell.begin;
            bar.pieces.back().endsTuplet = end == cell.end();
            from = end;
        }
    }

    void cutPlain(const Stretch& stretch, Beats from, const Beats& to) {
        while (from < to)
            from = addLongest(stretch, from,
                              stretch.event ? noteReach(meter, from, to) : restReach(meter, from, to));
    }

    /// Adds the longest single value that fits; returns where it ends.
    Beats addLongest(const Stretch& stretch, const Beats& from, const Beats& to) {
        const Beats room = to - from;
        for (int denominator = 1; denominator <= 1024; denominator *= 2)
            for (const bool dotted : {true, false}) {
                const Beats length = Beats(meter.beatUnit, denominator) * (dotted ? 3 : 2) / 2;
                if (length > room) continue;
                add(stretch, from, from + length, {denominator, dotted, {}});
                return from + length;
            }
        return to;
    }

    void add(const Stretch& stretch, const Beats& ownFrom, const Beats& ownTo, const NoteValue& value) {
        const Beats from = bar.fromOwnBeats(ownFrom);
        const Beats to = bar.fromOwnBeats(ownTo);
        PagePiece piece{from, to, value, stretch.event, false, false, false, false};
        if (stretch.event) {
            piece.tiedFromBefore = from > line[*stretch.event].begin;
            piece.tiedOn = to < line[*stretch.event].end;
        }
        bar.pieces.push_back(piece);
    }

    const std::vector<PageNotes>& line;
    const Meter& meter;
    PageBar& bar;
};

} // namespace

std::int64_t pulseBeats(const Meter& meter) {
    return meter.beatUnit >= 8 && meter.beatsPerBar % 3 == 0 ? 3 : 1;
}

Result<std::vector<PageBar>> pageBars(const std::vector<PageNotes>& line, const MeterMap& meters,
                                      std::int64_t lastBar) {
    const Beats first = line.empty() ? Beats(0) : std::min(Beats(0), Beats(line.front().begin.floor()));
    const std::int64_t firstBar = meters.barOf(first);
    std::int64_t last = std::max<std::int64_t>(lastBar, 1);
    if (!line.empty()) {
        const std::int64_t ends = meters.barOf(line.back().end);
        last = std::max(last, meters.barStart(ends) == line.back().end ? ends - 1 : ends);
    }
    if (last - firstBar >= mostBars)
        return Error{
            ErrorKind::OutOfRange,
            "The notes and choruses reach over more than 10 000 bars; move those that lie far outside.", ""};
    std::vector<PageBar> bars;
    std::size_t next = 0;
    for (std::int64_t number = firstBar; number <= last; ++number) {
        const Beats start = meters.barStart(number);
        bars.push_back({number,
                        std::max(first, start),
                        meters.barStart(number + 1),
                        {},
                        meters.at(number),
                        start,
                        meters.at(1).beatUnit});
        BarWriter(line, bars.back()).fill(next);
    }
    return bars;
}

} // namespace earwright
