// Where the beats are: a proposal for a beat map, from two or three taps or from nothing.
#pragma once

#include "core/listening/BeatActivation.h"
#include "core/result/Result.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>
#include <stop_token>
#include <vector>

namespace earwright {

/// What is known of the beats beforehand.
struct BeatWish {
    /// Beats next to each other, as somebody taps along.
    std::vector<Seconds> taps;
    /// With two taps or more: how many beats a bar has, and which of them the first tap is, from 1.
    std::optional<int> beatsPerBar = std::nullopt;
    int firstTapInBar = 1;
};

/// A beat as proposed.
struct FoundBeat {
    Seconds time;
    /// From 1; 0 where nothing tells the bars apart.
    int barPosition = 0;
    /// Chance that a listener would tap within 70 ms of it, 0 to 1.
    double confidence = 0;
};

/// Finds the beats of what was listened to. Two or more taps fix the tempo to within a tenth and which
/// strokes are the beats, and the beats go on from them in both directions, following the tempo. Without taps
/// both are found from the sound alone, with less confidence.
///
/// A path through the states "this far into a beat this long" of the greatest likelihood, the length changing
/// at beats only (Krebs, Boeck and Widmer 2015, "An efficient state-space model for joint tempo and meter
/// tracking"). Bars are counted from the first tap where their length is told, or else by where the harmony
/// changes and, in four, by what the drummer's foot does on two and four.
///
/// Threads: any; a hundredth of the sound's length. No beats where there is hardly any sound.
/// Errors: Cancelled.
Result<std::vector<FoundBeat>> findBeats(const BeatActivation& heard, BeatWish wish = {},
                                         std::stop_token stop = {});

} // namespace earwright
