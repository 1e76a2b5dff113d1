// How strongly the recording supports each pitch at one place: the last step of help.
#pragma once

#include "core/listening/ListeningWish.h"
#include "core/listening/PitchStrength.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "ui/grid/ChordRows.h"

#include <QString>

#include <stop_token>
#include <vector>

namespace earwright::ui {

/// Pitches worth a dot, and where they were listened for mostly.
struct HeardStrengths {
    std::vector<PitchStrength> pitches;
    HeardPart listened;
};

/// Pitches where and for what the wish says, rising; where nothing stands out all are weak, or there are
/// none. `line`: where notes of the line are written, of which those near the place tell what it sounds like,
/// as in the check. Takes a part of a second: not for the interface thread. Errors: Cancelled.
Result<HeardStrengths> pitchStrengths(const RecordingEvidence& recording, const Range<Seconds>& place,
                                      const std::vector<Range<Seconds>>& line, const ListeningWish& wish,
                                      const std::stop_token& stop);

/// "The octave is open: B♭3 72 %, B♭4 24 %."; empty where it is not, or where all but one are less likely
/// than one in ten, which are drawn all the same. Named on the chord there, if any.
QString openOctaveText(const std::vector<PitchStrength>& pitches, const ChordStretch* chord);

} // namespace earwright::ui
