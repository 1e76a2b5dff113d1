// One way to write notes that were placed freely, tapped in or played.
#pragma once

#include "core/study/Study.h"

#include <cstddef>
#include <map>
#include <vector>

namespace earwright {

/// A note as it would be written.
struct ProposedNote {
    Beats onset;
    Beats length;
    int midi = 60;
    friend bool operator==(const ProposedNote&, const ProposedNote&) = default;
};

/// One way to write all of them.
struct RhythmProposal {
    /// By onset, then pitch; none sounds into the next onset.
    std::vector<ProposedNote> notes;
    /// How the counted beats that have an onset are divided, by where they begin.
    std::map<Beats, BeatDivision> divisions;
    /// Which of its readings each beat has, in the order of RhythmReader::beats().
    std::vector<std::size_t> taken;
    /// How much it asks to be believed: half the squared deviations in units of the spread, plus what the
    /// notation costs. Smaller is better; e to the minus difference of two is their odds.
    double cost = 0;
};

/// The study with a proposal written in, as one edit: notes that are there from the first to the last
/// proposed onset make room.
Study writeProposal(const Study& study, const RhythmProposal& proposal);

} // namespace earwright
