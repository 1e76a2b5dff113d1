// Where the hand lies on the neck for one note or double stop, and what that costs.
#pragma once

#include "core/engraving/TabPlace.h"
#include "core/music/Note.h"
#include "core/music/StringTuning.h"

#include <vector>

namespace earwright {

/// `position` is the fret the first finger lies over: fingers one to four have the frets position to
/// position + 3, and one more on either side can be reached by stretching.
struct HandPlace {
    int position = 1;
    /// One for each note of the event, in its order.
    std::vector<TabPlace> places;
    friend bool operator==(const HandPlace&, const HandPlace&) = default;
};

/// Notes that begin together, by pitch from the lowest.
using StruckTogether = std::vector<Note>;

/// Whether every fretted note is within reach, fingers are no more than four frets apart and every string is
/// used once.
bool isInReach(const HandPlace& hand);

/// What it costs to be there, in units of which one is a stretch by a fret. The costs are weighed by hand
/// after common practice: stay in a position near the middle of the neck, stretch rather than shift for one
/// note, open strings only where they fall to hand and never for what a finger has to do.
double costOfPlace(const StruckTogether& event, const HandPlace& hand, const StringTuning& tuning);

} // namespace earwright
