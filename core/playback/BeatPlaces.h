// Where the beats of a study lie in its recording, as the player clicks and counts them.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// Every beat as it is counted (in 6/8 the dotted quarter) within the recording, rising; before the first
/// mark and after the last in the tempo next to it, as the sheet draws them. None before bars are marked.
std::vector<BeatPlace> beatPlaces(const Study& study, Seconds duration);

} // namespace earwright
