// The eighths between the beats: what swings, and where it may be played.
#pragma once

#include "core/study/Study.h"

#include <optional>
#include <vector>

namespace earwright {

/// A note between two quarters with nothing else in between: the second eighth of a pair, written evenly or
/// as the last of a triplet.
struct OffBeat {
    Beats place;
    /// The two quarters.
    Range<Beats> pair;
    /// Written in the middle of the two.
    bool isEven() const { return place - pair.begin == pair.end - place; }
    friend bool operator==(const OffBeat&, const OffBeat&) = default;
};

/// The quarter that a place lies in, counted from its bar line; nothing where three eighths are counted as
/// one (6/8). `meters`: the study's.
std::optional<Range<Beats>> quarterAround(const Beats& place, const Study& study, const MeterMap& meters);

/// Of these notes, in order, each place once. Pairs are counted from the bar line; where three eighths
/// are counted as one (6/8) there are none. Requires: notes rise by
/// onset.
std::vector<OffBeat> offBeats(const Study& study, const std::vector<Note>& notes);

/// Where the second of a pair may begin, from a little before its middle to its last fifth: swing ratios up
/// to 4 to 1.
Range<Seconds> swingReach(const Range<Seconds>& pair);

/// Where it may begin, from a little before the middle to the last fifth of the pair: swing ratios up to
/// 4 to 1. Requires: study.beatMap.hasTempo().
Range<Seconds> reachOf(const OffBeat& offBeat, const Study& study);

} // namespace earwright
