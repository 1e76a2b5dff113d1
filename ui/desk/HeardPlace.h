// Where on the page a sound is told that was found in the recording.
#pragma once

#include "core/study/Study.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

namespace earwright::ui {

/// A column of the grid in which no note begins, where the sound comes no more than a sixth of a beat after
/// it or a twelfth before it: a line lies behind its beats, and an eighth that swings comes late, but is
/// written on the half. In beats that are divided finer, half of that. Else the nearest quarter or third of
/// the beat, so that a note of a triplet that is written otherwise has its own place. Requires:
/// study.beatMap.hasTempo().
Range<Beats> heardPlace(const Study& study, const Range<Seconds>& time);

} // namespace earwright::ui
