// One counted beat of free onsets read in one division: which line each onset belongs to, and what that
// costs.
#pragma once

#include "core/study/Study.h"

#include <optional>
#include <vector>

namespace earwright {

/// How the onsets of one beat would be written.
struct BeatReading {
    BeatDivision division = BeatDivision::One;
    /// For each onset, the line it falls on: 0 on the beat, as many as parts on the next beat.
    std::vector<int> lines;
    double cost = 0;

    bool reachesNextBeat() const { return !lines.empty() && lines.back() == static_cast<int>(division); }
    bool beginsOnBeat() const { return !lines.empty() && lines.front() == 0; }
};

/// All readings worth comparing: for each division from 1 to 8 the cheapest one, with and without its last
/// onset on the next beat and its first on this one. A division is left out where a simpler one has the same
/// lines.
///
/// Beat: where a counted beat of the frame begins. Onsets: beats from bar 1 as played, rising, all within it.
/// Spread: standard deviation of an onset, in beats, greater than 0. Frame: meter and page of the piece; its
/// notes are not read.
std::vector<BeatReading> readBeat(const Study& frame, const Beats& beat, const std::vector<double>& onsets,
                                  double spread);

} // namespace earwright
