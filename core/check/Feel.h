// How a phrase is placed in time: how far its eighths swing and where its beats lie. Style, never judged.
#pragma once

#include "core/study/PlayedNote.h"
#include "core/study/Study.h"

#include <optional>
#include <vector>

namespace earwright {

/// How the pairs of eighths are divided.
struct SwingFeel {
    /// The first of a pair against the second, from the mean share that the first has of its pair: 1 is even,
    /// 2 the triplet.
    double ratio = 1;
    /// The ratios one standard deviation of that share below and above the mean.
    double least = 1;
    double most = 1;
    /// The second of a pair, on average.
    Seconds shortEighth;
    int pairs = 0;
    friend bool operator==(const SwingFeel&, const SwingFeel&) = default;
};

/// How notes written on the beat are placed against the beat map.
struct BeatPlacement {
    /// Behind; ahead is negative.
    Seconds behind;
    /// Standard deviation.
    Seconds spread;
    int notes = 0;
    friend bool operator==(const BeatPlacement&, const BeatPlacement&) = default;
};

/// The feel of a phrase. Each part is nothing where too little was heard to tell.
struct Feel {
    /// Fewer pairs, or notes on the beat, say nothing.
    static constexpr int leastPairs = 4;
    static constexpr int leastNotes = 4;

    std::optional<SwingFeel> swing;
    std::optional<BeatPlacement> placement;
    /// What was heard in all, also where it is too little.
    int pairsHeard = 0;
    int notesHeard = 0;
    friend bool operator==(const Feel&, const Feel&) = default;
};

/// From the shares that the first ones of pairs have of them, and the second ones' lengths together.
/// Requires: two shares or more.
SwingFeel swingOf(const std::vector<double>& shares, Seconds shortOnes);

/// From what was measured of these notes. A pair counts where the note on its quarter, the one off it and the
/// one on the next quarter were all heard, and nothing else is written between: the durations from onset to
/// onset that A. Friberg and A. Sundström compare ("Swing ratios and ensemble timing in jazz performance",
/// Music Perception 19, 2002). Notes that are slid into or have grace notes
/// are left out: they begin in more than one place. Requires: study.beatMap.hasTempo(); notes rise by onset.
Feel feelOf(const Study& study, const std::vector<Note>& notes, const PlayedNotes& played);

} // namespace earwright
