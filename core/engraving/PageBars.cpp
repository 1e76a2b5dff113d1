#include "core/engraving/PageBars.h"

#include "core/engraving/BarGroups.h"
#include "core/engraving/TupletCells.h"
#include "core/engraving/ValueReach.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <bit>

namespace earwright {

namespace {

constexpr std::int64_t mostBars = 10'000;

class BarWriter {
public:
    BarWriter(const std::vector<PageNotes>& written, PageBar& toFill)
        : line(written), meter(toFill.meter), bar(toFill) {}

    void fill(std::size_t& next) {
        const std::vector<BarStretch> stretches = stretchesFrom(next);
        if (stretches.size() == 1 && !stretches.front().event && bar.number >= 1) {
            bar.pieces.push_back(
                {bar.begin, bar.end, NoteValue{0, false, {}}, {}, false, false, false, false});
            return;
        }
        bar.groupEnds = barGroupEnds(meter, stretches);
        const TupletCells cells(meter, bar.ownBeats(bar.begin), stretches);
        for (const BarStretch& stretch : stretches)
            cutAtTuplets(stretch, cells);
    }

private:
    std::vector<BarStretch> stretchesFrom(std::size_t& next) const {
        std::vector<BarStretch> stretches;
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

    void cutAtTuplets(const BarStretch& stretch, const TupletCells& cells) {
        Beats plainFrom = stretch.begin;
        Beats at = stretch.begin;
        while (at < stretch.end) {
            const TupletCell cell = cells.at(at);
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

    void cutInTuplet(const BarStretch& stretch, Beats from, const Beats& to, const TupletCell& cell) {
        const Tuplet tuplet{static_cast<int>(cell.actual), static_cast<int>(floorOfTwos(cell.actual))};
        const Beats part = cell.length / cell.parts;
        // Undotted and as long as all of the cell's parts, would they be halves of halves.
        const Beats plainPart = cell.length / floorOfTwos(cell.parts);
        while (from < to) {
            const std::int64_t units = ratio(to - from, part).floor();
            const std::int64_t whole = floorOfTwos(units);
            const bool dotted = whole >= 2 && units >= whole + whole / 2;
            const Beats end = from + part * (dotted ? whole + whole / 2 : whole);
            const std::int64_t denominator = ratio(Beats(meter.beatUnit), plainPart * whole).floor();
            add(stretch, from, end, {static_cast<int>(denominator), dotted, tuplet});
            bar.pieces.back().startsTuplet = from == cell.begin;
            bar.pieces.back().endsTuplet = end == cell.end();
            from = end;
        }
    }

    static std::int64_t floorOfTwos(std::int64_t count) {
        return static_cast<std::int64_t>(std::bit_floor(static_cast<std::uint64_t>(count)));
    }

    void cutPlain(const BarStretch& stretch, Beats from, const Beats& to) {
        while (from < to)
            from = addLongest(stretch, from,
                              stretch.event ? noteReach(meter, bar.groupEnds, from, to)
                                            : restReach(meter, bar.groupEnds, from, to));
    }

    /// Adds the longest single value that fits; returns where it ends.
    Beats addLongest(const BarStretch& stretch, const Beats& from, const Beats& to) {
        const auto value = longestValue(meter, to - from);
        if (!value) return to;
        add(stretch, from, from + value->length, {value->denominator, value->dotted, {}});
        return from + value->length;
    }

    void add(const BarStretch& stretch, const Beats& ownFrom, const Beats& ownTo, const NoteValue& value) {
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

bool isCutInHalves(const Beats& place) {
    return std::has_single_bit(static_cast<std::uint64_t>(place.denominator()));
}

/// Where the page begins: at bar 1, or where the pickup does.
Beats pageBegin(const std::vector<PageNotes>& line, const std::optional<Beats>& pickup) {
    const Beats none(0);
    const Beats first = line.empty() ? none : std::min(none, line.front().begin);
    const Beats wanted = -pickup.value_or(none);
    if (!pickup || first < wanted) return Beats(first.floor());
    // A bar cannot begin within a tuplet.
    const Beats beatEnd = Beats(wanted.floor() + 1);
    const bool isFree = std::all_of(line.begin(), line.end(), [&](const PageNotes& notes) {
        return notes.begin >= beatEnd ||
               (isCutInHalves(notes.begin) && (notes.end >= beatEnd || isCutInHalves(notes.end)));
    });
    return isFree ? wanted : Beats(wanted.floor());
}

} // namespace

std::int64_t pulseBeats(const Meter& meter) {
    return meter.goesInThrees() ? 3 : 1;
}

Result<std::vector<PageBar>> pageBars(const std::vector<PageNotes>& line, const MeterMap& meters,
                                      std::int64_t lastBar, const std::optional<Beats>& pickup) {
    const Beats first = pageBegin(line, pickup);
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
