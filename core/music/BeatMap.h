// Where the beats of the music lie in the recording: marks set by ear, and a line drawn between them.
#pragma once

#include "core/music/MeterMap.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>
#include <vector>

namespace earwright {

/// One place where the user said "this beat is here".
struct BeatMark {
    Beats position;
    Seconds time;

    friend bool operator==(const BeatMark&, const BeatMark&) = default;
};

/// Turns beats into seconds of the recording and back.
///
/// Units: Beats from the start of bar 1 (whole at marks), Seconds of the recording.
/// Between two marks beats are evenly spaced; before the first and after the last mark the tempo of
/// the nearest stretch goes on. So a band that drifts is followed as closely as it is marked.
/// Invariants: positions and times both rise strictly from mark to mark.
/// Threads: a value; any thread may read one that nobody writes.
class BeatMap {
public:
    BeatMap() = default;
    /// Sorts the marks and drops those that would break the invariant (a later one of a crossing pair).
    explicit BeatMap(std::vector<BeatMark> marks);

    const std::vector<BeatMark>& marks() const { return list; }
    /// True once two marks give a tempo; until then there is no way between beats and seconds.
    bool hasTempo() const { return list.size() >= 2; }

    /// Requires: hasTempo().
    Seconds seconds(const Beats& place) const { return secondsAt(place.toDouble()); }
    Seconds secondsAt(double beats) const;
    /// Requires: hasTempo(). Not rounded: callers choose their grid with Beats::nearest.
    double beatsAt(Seconds time) const;
    Range<Seconds> seconds(const Range<Beats>& range) const;

    /// Local tempo in beats per minute at a time. Requires: hasTempo().
    double tempoAt(Seconds time) const;

    /// A mark tapped while listening. The first is bar 1. After the last mark the next bar line (or beat)
    /// is meant, or a later one if the tempo of the last stretches (their median, from three marks on) says
    /// that bars went by untapped; between marks the nearest bar line (or beat) is, and a mark already there
    /// moves. A tap that would have to cross a neighbour changes nothing.
    BeatMap tappedBar(Seconds time, const MeterMap& meters) const;
    BeatMap tappedBeat(Seconds time, const MeterMap& meters) const;

    /// With one mark more, or the mark of that beat elsewhere. One that would have to cross a neighbour
    /// changes nothing.
    BeatMap withMark(const BeatMark& mark) const;

    /// The mark nearest to a time within the tolerance, as an index.
    std::optional<std::size_t> markNear(Seconds time, Seconds tolerance) const;
    /// The mark moved in time, kept at least 20 ms from its neighbours. Requires: index < marks().size().
    BeatMap moved(std::size_t index, Seconds time) const;
    BeatMap removed(std::size_t index) const;
    /// All positions shifted, for "bar 1 is here".
    BeatMap renumbered(const Beats& by) const;

    friend bool operator==(const BeatMap&, const BeatMap&) = default;

private:
    std::size_t stretchForTime(Seconds time) const;
    /// Counted in the bars, or beats, of a meter map.
    struct Taps;
    BeatMap tapped(Seconds time, const Taps& taps) const;
    /// Seconds a beat usually took in the last stretches. Requires: hasTempo().
    Seconds usualBeat() const;

    std::vector<BeatMark> list;
};

} // namespace earwright
