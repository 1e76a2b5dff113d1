// How far one written value may reach in its bar, so that the player sees where the beats are.
#pragma once

#include "core/music/Meter.h"
#include "core/time/Beats.h"

namespace earwright {

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
/// Requires: 0 ≤ from < to, both within the bar.
Beats noteReach(const Meter& meter, const Beats& from, const Beats& to);

/// The same for a rest: no more than a beat, or half a bar of two beats that begins where the half does; off
/// the beat without dots, from the shortest to the longest (common practice; Gould, "Behind Bars", from
/// memory).
Beats restReach(const Meter& meter, const Beats& from, const Beats& to);

} // namespace earwright
