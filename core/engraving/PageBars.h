// The line cut into bars and into note values that can be drawn, with ties, dots, tuplets and rests.
#pragma once

#include "core/engraving/PageLine.h"
#include "core/music/MeterMap.h"
#include "core/result/Result.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// `actual` notes in the time of `normal`.
struct Tuplet {
    int actual = 3;
    int normal = 2;
    friend bool operator==(const Tuplet&, const Tuplet&) = default;
};

/// A value as drawn.
struct NoteValue {
    /// 1 is a whole note, 4 a quarter; 0 stands for the rest that fills a bar.
    int denominator = 4;
    bool dotted = false;
    std::optional<Tuplet> tuplet;
    friend bool operator==(const NoteValue&, const NoteValue&) = default;
};

/// One drawn note, double stop or rest.
struct PagePiece {
    Beats begin;
    Beats end;
    NoteValue value;
    /// Index into the line; a rest has none.
    std::optional<std::size_t> event;
    bool tiedFromBefore = false;
    bool tiedOn = false;
    bool startsTuplet = false;
    bool endsTuplet = false;
};

/// One bar, filled from its begin to its end.
struct PageBar {
    /// From 1; the bars before are 0, −1 and so on.
    std::int64_t number = 1;
    Beats begin;
    Beats end;
    std::vector<PagePiece> pieces;
    Meter meter;
    /// Where the whole bar starts; earlier than `begin` in a pickup.
    Beats start;
    /// The unit that all places are counted in: the first meter's.
    int countedUnit = 4;
    /// Of the groups that its values and beams show, in its own beats from its start; empty where its meter
    /// shows them (BarGroups.h).
    std::vector<std::int64_t> groupEnds{};

    /// A place in beats of the bar's own meter, from its start.
    Beats ownBeats(const Beats& place) const { return (place - start) * meter.beatUnit / countedUnit; }
    Beats fromOwnBeats(const Beats& own) const { return start + own * countedUnit / meter.beatUnit; }
};

/// Beats to one pulse of the page: three where eighths or shorter values go in threes (Meter::goesInThrees),
/// else one. Unlike Meter::unitsPerCount, which counts the three eighths of 3/8 one by one.
std::int64_t pulseBeats(const Meter& meter);

/// Bars from the pickup, or bar 1, to the last note, and at least to bar `lastBar`. The pickup is as long as
/// `pickup` says, in beats; without it, where notes begin earlier, and where a tuplet fills the beat it would
/// cut, it begins with the beat of the first note or that beat. Places that are not halves of halves of a
/// beat make tuplets (TupletCells.h); other notes and rests show the beats as ValueReach.h says.
///
/// Error: OutOfRange where that is more than 10 000 bars. Threads: any.
Result<std::vector<PageBar>> pageBars(const std::vector<PageNotes>& line, const MeterMap& meters,
                                      std::int64_t lastBar, const std::optional<Beats>& pickup = {});

} // namespace earwright
