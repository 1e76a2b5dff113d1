// What it costs the hand to come from one note or double stop to the next.
#pragma once

#include "core/engraving/HandPlace.h"
#include "core/engraving/LineTime.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// Two events, one behind the other, for every way to lay them. What depends on the notes alone is looked at
/// once.
///
/// Costs are in the units of costOfPlace(). Shifts are dear in the middle of a line, the dearer the farther,
/// and more so where there is hardly time for one (an eighth of a second: sixteenths at 120 quarters a
/// minute, eighths at 240) and where no finger leads the way along its string; they cost less behind a long
/// note, and little where the hand is free (common practice). So are frets too far apart, skipped strings,
/// and slurs, slides and held notes that would not be on the string they need.
class HandMove {
public:
    /// Requires: neither is empty, and `from` begins before `to`.
    HandMove(const StruckTogether& from, const StruckTogether& to, const LineTime& time = {});

    double cost(const HandPlace& before, const HandPlace& after) const;

private:
    /// One note of the first event and one of the second.
    struct Pair {
        std::size_t from = 0;
        std::size_t to = 0;
        /// It would cut the first short to take its string.
        bool soundsOn = false;
        /// They have to be on one string.
        bool isBound = false;
    };
    double costOfShift(const HandPlace& before, const HandPlace& after) const;

    std::vector<Pair> pairs;
    /// By how much the time there is for it makes a shift cheaper or dearer.
    double haste = 1;
};

/// Whether a note is still to sound under one behind it: half of that one, or half a beat. What reaches less
/// far into it is a line played smoothly, and its string is free.
bool soundsUnder(const Note& held, const Note& next);

/// What it costs to take the string of a note that is to sound on; striking the same note again costs
/// nothing.
double costOfCutting(const TabPlace& held, const HandPlace& next);

} // namespace earwright
