// How far one written value may reach in its bar, so that the player sees where the beats are.
#pragma once

#include "core/music/Meter.h"
#include "core/time/Beats.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace earwright {

/// A value without a tuplet.
struct PlainValue {
    /// 4 is a quarter.
    int denominator = 4;
    bool dotted = false;
    /// In beats of the meter.
    Beats length;
};

/// The longest one that is no longer than `room`; nothing where a 1024th is.
std::optional<PlainValue> longestValue(const Meter& meter, const Beats& room);

/// Where the value of a note that sounds from `from` to `to` has to end at the latest: in beats of the bar's
/// own meter, from its start.
///
/// A note on the beat may be as long as one value can show; in two and four beats only values of whole beats
/// hide the middle of the bar, and one that ends in a part shorter than half a beat shows the beat it ends
/// in. A note off the beat ends with its beat and is tied on, but for the syncopations that everybody reads
/// at sight: an eighth, then a quarter or a dotted quarter within half a bar of two or four beats, and the
/// second of two dotted quarters in three. In compound meters the beat is the dotted one (common practice;
/// for the middle of the bar: Roemer, "The Art of Music Copying", from memory).
///
/// Where the bar is divided into groups (`groupEnds` of BarGroups.h, or empty), each of them is read as a bar
/// of its own is, and a value that begins with one may show it and those behind it as a whole: a half and a
/// dotted quarter fill 7/8 (common practice).
///
/// Requires: 0 ≤ from < to, both within the bar.
Beats noteReach(const Meter& meter, const std::vector<std::int64_t>& groupEnds, const Beats& from,
                const Beats& to);

/// The same for a rest: no more than a beat, or half a bar of two beats that begins where the half does; off
/// the beat without dots, from the shortest to the longest (common practice; Gould, "Behind Bars", from
/// memory). It ends with its group, whose halves it shows where that has two or four beats.
Beats restReach(const Meter& meter, const std::vector<std::int64_t>& groupEnds, const Beats& from,
                const Beats& to);

} // namespace earwright
