// The likeliest path of beats through what begins when.
#pragma once

#include "core/listening/BeatActivation.h"
#include "core/result/Result.h"

#include <stop_token>
#include <vector>

namespace earwright {

/// What is known beforehand. Lengths in frames of the activation.
struct BeatPathWish {
    int shortest = 20;
    int longest = 120;
    /// Frames at which somebody tapped.
    std::vector<double> taps;
    /// Frames of the likeliest beat where nothing else is known; 0 for none.
    double usualLength = 0;
};

struct BeatPath {
    /// Frames, rising.
    std::vector<int> beats;
    /// Log likelihood of the whole path.
    double score = 0;
};

/// Requires: 2 < shortest <= longest. Memory: a hundred bytes a frame. Errors: Cancelled.
Result<BeatPath> likeliestPath(const BeatActivation& heard, const BeatPathWish& wish,
                               std::stop_token stop = {});

} // namespace earwright
