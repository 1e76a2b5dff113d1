// By which step of the page the notes of a run are moved.
#pragma once

#include "core/check/PhraseCheck.h"
#include "core/study/Study.h"
#include "core/time/Beats.h"

#include <vector>

namespace earwright {

/// Tells of the runs of a phrase that are moved in time the step of the page (OffTogether::step) that would
/// put them nearest to where they begin: from a sixteenth to a half, dotted and in triplets. Nothing of a run
/// that stays more than 35 ms from all of them in the mean, or a tenth of a beat where that is more: swung
/// eighths that are written evenly stay a twelfth away. Requires: the notes are the study's, and it has a
/// tempo.
void tellSteps(std::vector<CheckedNote>& notes, const Study& study);

/// "an eighth" or "a triplet eighth", whichever way it goes: the words of the desk and of the headless tool.
/// Empty for what is no such step.
const char* nameOfStep(const Beats& step);

} // namespace earwright
