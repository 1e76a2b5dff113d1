// Which meter stands from which bar on, and where bar 1 is.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <cstdint>
#include <optional>

namespace earwright {

// Whatever happens to bars, everything stays with the sound it stands at: notes, marks, chords that replace
// the form's, keys and repeats. Spans and loose ends are in seconds anyway.

/// Another meter from a bar on, up to the next change, or for so many bars, behind which the meter of before
/// goes on. 1 to 32 beats a bar, the beat a whole note to a 32nd. Bar 1 and those before it share a meter.
///
/// Where only bar lines are marked in that stretch, its first among them, they stay the bar lines they were
/// tapped as, and what lies between them is counted in the new beats. Where single beats are marked, or
/// nothing is, beats stay as long as they are and bar lines move; later changes then stand on the bar lines
/// nearest to their sound.
///
/// Error: OutOfRange, with a sentence, for a meter that is none, a bar or a count that is out of reach.
Result<Study> changeMeter(const Study& study, std::int64_t bar, const Meter& meter,
                          std::optional<std::int64_t> bars = std::nullopt);

/// The meter of bar 1; what changeMeter refuses changes nothing.
Study setMeter(const Study& study, const Meter& meter);

/// The meter of the bar before goes on from here. Nothing changes where none is set on that bar.
Study removeMeterChange(const Study& study, std::int64_t bar);

/// Bar 1 starts on the counted beat nearest to the time, under the meter that stands there. Nothing changes
/// without a tempo, or for a time beyond the limits of a study (Limits.h).
Study startBarOneAt(const Study& study, Seconds time);

} // namespace earwright
