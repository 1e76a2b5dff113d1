// Notation for notes that were placed freely, tapped in or played: the simplest first, others to choose from.
#pragma once

#include "core/study/Study.h"
#include "core/time/Seconds.h"

#include <map>
#include <vector>

namespace earwright {

/// A note as it was played: from the first to the last moment it was held.
struct FreeNote {
    Range<Seconds> held;
    int midi = 60;
    friend bool operator==(const FreeNote&, const FreeNote&) = default;
};

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
    /// How much it asks to be believed: half the squared deviations in units of the spread, plus what the
    /// notation costs. Smaller is better; e to the minus difference of two is their odds.
    double cost = 0;
};

struct RhythmWishes {
    /// Standard deviation of onsets around their places. Players tap along to a record within 20 to 40 ms
    /// (Repp, Sensorimotor synchronization: a review of the tapping literature, Psychonomic Bulletin & Review
    /// 12, 2005).
    Seconds spread{0.03};
    std::size_t mostProposals = 6;
};

/// The best ways to write these notes, cheapest first and none twice. Each counted beat is divided in one of
/// 1 to 8 so that every onset falls on a line; dynamic programming over the beats finds the cheapest
/// combinations. A division costs the more the rarer it is, and more where its neighbour is divided
/// otherwise; so does a note off the beat behind a silent line. In a swung passage the lines of halves are
/// where they are played (PlayedTime.h), so swung eighths are written even. A note lasts to the next onset
/// unless it was let go clearly earlier.
///
/// Onsets closer together than a strum of 35 ms are one place if their pitches differ. Empty where there are
/// no notes. Requires: study.beatMap.hasTempo(). Threads: any.
std::vector<RhythmProposal> proposeRhythms(const Study& study, std::vector<FreeNote> notes,
                                           const RhythmWishes& wishes = {});

/// The study with a proposal written in, as one edit: notes that are there from the first to the last
/// proposed onset make room.
Study writeProposal(const Study& study, const RhythmProposal& proposal);

} // namespace earwright
