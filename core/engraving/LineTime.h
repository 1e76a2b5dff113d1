// When a hand has to be where: the written places of a line in seconds.
#pragma once

#include "core/study/Study.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// By the study's beat marks and how it swings; where no beats are marked, by the tempo marks of its page,
/// the first of which holds before it, too. Where nothing tells a quarter lasts half a second, and so does a
/// beat without a study: medium tempo.
///
/// Threads: any.
class LineTime {
public:
    LineTime() = default;
    /// Requires: the study outlives this.
    explicit LineTime(const Study& toPlay);

    /// Only the time between two places means anything.
    Seconds at(const Beats& place) const;

private:
    /// From a place on, in beats as played.
    struct Pace {
        double from = 0;
        Seconds begin{0};
        double secondsPerBeat = 0.5;
    };

    const Study* study = nullptr;
    MeterMap meters{Meter{}, {}};
    /// Rising, at least one.
    std::vector<Pace> paces{Pace{}};
};

} // namespace earwright
