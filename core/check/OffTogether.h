// What is off about every note of a run in the same way.
#pragma once

#include "core/time/Beats.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright {

/// Either all of the run begin as much later or earlier than they are written, or all sound an octave away.
/// Notes that have the same belong together.
struct OffTogether {
    /// From the first note's place to the last one's end, as written.
    Range<Seconds> run;
    int notes = 0;
    /// How much later than written they begin, in the middle; earlier is negative. Nought where that is not
    /// what is off.
    Seconds later{0};
    /// The same as a step of the page, where bars are marked and it is near enough to one.
    std::optional<Beats> step = std::nullopt;
    /// 12 or −12 where they sound an octave higher or lower.
    int semitones = 0;

    bool isMoved() const { return semitones == 0; }
    friend bool operator==(const OffTogether&, const OffTogether&) = default;
};

} // namespace earwright
