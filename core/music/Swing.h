// How unevenly even-looking notes are played.
#pragma once

#include "core/time/Beats.h"

#include <algorithm>

namespace earwright {

/// The first of two notes written alike lasts `ratio` times as long as the second; the pair keeps its time.
/// 1 is even, 2 is the triplet feel, 3 the dotted one.
struct Swing {
    /// 1 to 4.
    double ratio = 1;
    /// The notes that swing: 8 or 16.
    int noteValue = 8;

    friend bool operator==(const Swing&, const Swing&) = default;
    bool isEven() const { return ratio == 1; }
    /// Where a place of a pair, 0 to 1, is played: its middle goes to ratio / (1 + ratio), and what lies
    /// between moves along in proportion. Places from 0 to 1; monotonic.
    double played(double written) const {
        const double middle = ratio / (1 + ratio);
        return written < 0.5 ? 2 * written * middle : middle + (2 * written - 1) * (1 - middle);
    }
};

inline constexpr double leastSwing = 1;
inline constexpr double mostSwing = 4;

} // namespace earwright
