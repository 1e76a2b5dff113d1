// How the user listens now: loop, speed and transposition. Kept with the study, but no steps to undo.
#pragma once

#include "core/study/Study.h"

#include <optional>

namespace earwright {

// These go through History::replacePresent.

/// The loop, its ends in either order; none takes it away. One that is empty or beyond the limits of a study
/// changes nothing.
Study setLoop(const Study& study, const std::optional<Range<Seconds>>& loop);
/// Played ÷ original, kept within 0.1 to 2.
Study setSpeed(const Study& study, double speed);
/// Kept within ±12 semitones and ±100 cents.
Study setTransposition(const Study& study, int semitones, int cents);

} // namespace earwright
