// Which of an instrument's pitches can be heard, written and checked here.
#pragma once

#include "core/music/LineInstrument.h"

#include <optional>

namespace earwright {

/// The part of a range from lowestMidi to highestMidi (E1 to C7). Nothing where that is less than a range.
std::optional<PitchRange> withinHearing(const PitchRange& range);

} // namespace earwright
