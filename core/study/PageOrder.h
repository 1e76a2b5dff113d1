// The order a study keeps its page marks in, and their ranges, stated once for edits and files.
#pragma once

#include "core/music/Meter.h"
#include "core/music/PageMarks.h"

namespace earwright {

/// Quarters a minute.
inline constexpr double slowestTempo = 10;
inline constexpr double fastestTempo = 600;
inline constexpr int mostTimes = 99;
inline constexpr int mostEndingBars = 32;

/// More than nothing and at most a bar of the first meter, a whole number of thirty-seconds or longer values,
/// so that a page can begin there.
bool isUsablePickup(const Beats& length, const Meter& first);

/// Leaves at least one bar before its first ending.
bool isUsable(const Repeat& repeat);

// Whether the second may stand behind the first: later; of texts, at the same place, too; hairpins and
// repeats only behind its end.
bool mayFollow(const KeyChange& a, const KeyChange& b);
bool mayFollow(const MeterChange& a, const MeterChange& b);
bool mayFollow(const SwingChange& a, const SwingChange& b);
bool mayFollow(const TempoMark& a, const TempoMark& b);
bool mayFollow(const DynamicMark& a, const DynamicMark& b);
bool mayFollow(const Hairpin& a, const Hairpin& b);
bool mayFollow(const TextMark& a, const TextMark& b);
bool mayFollow(const Repeat& a, const Repeat& b);

/// In order, with nothing that is out of range or stands in another's place: of two, the later in the list
/// stays.
PageMarks settled(PageMarks page);

} // namespace earwright
