// How strongly the recording supports each pitch at one place, as dots of the grid: the last step of help.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "ui/grid/ColumnEvidence.h"

#include <stop_token>
#include <vector>

namespace earwright::ui {

/// Pitches worth a dot in a part of the sound, rising; where nothing stands out all are weak, or there are
/// none. Takes a part of a second: not for the interface thread. Errors: Cancelled.
Result<std::vector<PitchStrength>> pitchStrengths(const RecordingEvidence& recording,
                                                  const Range<Seconds>& place, const HeardPart& part,
                                                  const std::stop_token& stop);

/// The same from log probabilities that add up to one.
std::vector<PitchStrength> strengthsOf(const PitchRow& row);

} // namespace earwright::ui
