// The furthest places a study can name. Far beyond any music, and close enough that no arithmetic on them
// overflows; edits keep to them, files beyond them are refused.
#pragma once

#include "core/music/BeatMap.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <algorithm>
#include <cstdint>

namespace earwright {

/// Eleven days, before or after the recording's first sample.
inline constexpr Seconds furthestTime{1e6};
/// Beats from bar 1 to the furthest beat mark, on either side.
inline constexpr std::int64_t furthestMark = 1'000'000;
/// A beat of 1 ms, 60,000 a minute: with less the beats of a long recording would fill the memory.
inline constexpr Seconds shortestBeat{1e-3};
/// Beats or bars from bar 1 to anything else that is counted, on either side.
inline constexpr std::int64_t furthestBeat = 999'999'999;

/// A place or length in beats is kept as a fraction of at most these numbers: nine digits and three.
inline constexpr std::int64_t largestNumerator = 999'999'999;
inline constexpr std::int64_t largestDenominator = 999;
/// The finest parts of a beat that the chords of one bar can need together.
inline constexpr std::int64_t finestChordParts = 256;

/// Seconds of the recording a second of a take can cover: every speed the player has, and some room for
/// clocks.
inline constexpr double slowestTake = 0.05;
inline constexpr double fastestTake = 4;

/// False for what is no number, too.
inline bool isWithinLimits(Seconds time) {
    return time >= -furthestTime && time <= furthestTime;
}

inline bool isWithinLimits(const Range<Seconds>& range) {
    return isWithinLimits(range.begin) && isWithinLimits(range.end);
}

inline bool isWithinLimits(const BeatMap& map) {
    const auto& marks = map.marks();
    const bool isNear = std::all_of(marks.begin(), marks.end(), [](const BeatMark& mark) {
        return isWithinLimits(mark.time) && mark.position >= Beats(-furthestMark) &&
               mark.position <= Beats(furthestMark);
    });
    const auto tooQuick = [](const BeatMark& mark, const BeatMark& next) {
        return (next.time - mark.time).value <
               shortestBeat.value * (next.position - mark.position).toDouble();
    };
    return isNear && std::adjacent_find(marks.begin(), marks.end(), tooQuick) == marks.end();
}

} // namespace earwright
