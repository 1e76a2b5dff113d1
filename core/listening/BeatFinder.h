// Where the beats are: a proposal for a beat map, from two or three taps or from nothing.
#pragma once

#include "core/listening/BeatActivation.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// A beat as proposed.
struct FoundBeat {
    Seconds time;
    /// From 1; 0 where nothing tells the bars apart.
    int barPosition = 0;
    /// Chance that a listener would tap within 70 ms of it, 0 to 1.
    double confidence = 0;
};

/// Finds the beats of what was listened to. Taps are beats next to each other, as somebody taps along; two or
/// more of them fix the tempo to within a tenth and which strokes are the beats, and the beats go on from
/// them in both directions, following the tempo. Without taps both are found from the sound alone, with less
/// confidence.
///
/// A path through the states "this far into a beat this long" of the greatest likelihood, the length changing
/// at beats only (Krebs, Boeck and Widmer 2015, "An efficient state-space model for joint tempo and meter
/// tracking"). Bars are told by where the harmony changes and, in four, by what the drummer's foot does on
/// two and four.
///
/// Threads: any; a hundredth of the sound's length. No beats where there is hardly any sound.
std::vector<FoundBeat> findBeats(const BeatActivation& heard, std::vector<Seconds> taps = {});

} // namespace earwright
