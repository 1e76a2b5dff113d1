// Beats that were found by listening, and taking them over as marks.
#pragma once

#include "core/study/Study.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// A beat that is proposed, not marked.
struct ProposedBeat {
    Seconds time;
    /// From 1; 0 where nothing tells the bars apart.
    int barPosition = 0;
    /// Chance that it is a beat, 0 to 1.
    double confidence = 0;
    friend bool operator==(const ProposedBeat&, const ProposedBeat&) = default;
};

/// What the marks in a range say about its beats: the places of their counted beats, rising, as if tapped
/// along. Marks more than eight of them apart say too little about the beats between them.
std::vector<Seconds> tapsOf(const Study& study, const Range<Seconds>& range);

/// The proposed beats as marks, on the counted beats of the meter that stands there. Marks that are there
/// stay where they are, and the others are counted from them; between two of them beats are taken only where
/// there are as many as the marks say. Without marks bar 1 is the first proposed bar line, or else the first
/// beat, and where the bars are told the meter is as long as they are, unless a meter other than 4/4 was set
/// already, or chords or notes count on the one there is. Nothing changes for fewer than two beats.
Study acceptBeats(const Study& study, std::vector<ProposedBeat> beats);

} // namespace earwright
