// Ways through beats each of which may be read in several ways.
#pragma once

#include "core/study/BeatReading.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// The readings of one counted beat with onsets in it, and the first of the places they are about.
struct BeatChoice {
    Range<Beats> beat;
    std::size_t firstPlace = 0;
    std::vector<BeatReading> readings;
    /// Three or five notes over this beat and the next may be written as one tuplet.
    bool mayBeginTupletOverTwo = false;
    /// The second and third of three notes over four beats may be in this beat and the next: the beats around
    /// them leave room for no others.
    bool mayHoldTripletOverFour = false;
};

/// A way through all beats: the index of a reading for each.
struct RhythmPath {
    double cost = 0;
    std::vector<std::size_t> taken;
};

/// The cheapest ways, cheapest first: of each reading of the last beat at most so many; none where two beats
/// can't follow each other in any way, as they can't where both put a note on the line between them. Choices:
/// by beat.
std::vector<RhythmPath> cheapestPaths(const std::vector<BeatChoice>& choices, std::size_t wanted);

/// All ways together, each weighing e to the minus its cost.
struct AllPaths {
    /// Natural logarithm of their sum; minus infinity where there is none.
    double logSum = 0;
    /// For each reading of each beat the share of those that take it, 0 to 1.
    std::vector<std::vector<double>> shares;
};

AllPaths allPaths(const std::vector<BeatChoice>& choices);

} // namespace earwright
