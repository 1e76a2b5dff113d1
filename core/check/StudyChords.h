// The check of the chords that stand over a study's bars.
#pragma once

#include "core/check/ChordCheck.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <cstdint>
#include <stop_token>
#include <vector>

namespace earwright {

/// A written chord and what the recording says to it.
struct CheckedChord {
    std::int64_t bar = 1;
    Beats withinBar;
    ChordSymbol symbol;
    /// From where it stands to the next chord or the end of its bar.
    Range<Seconds> range;
    ChordAnswer answer;
    friend bool operator==(const CheckedChord&, const CheckedChord&) = default;
};

/// Checks the chords over the bars that begin in a stretch, with the written notes taken out of the sound.
/// Symbols that cannot be read, N.C., and chords outside the recording or shorter than a third of a second
/// are left out. The bass is listened for where the study says that it is.
///
/// Threads: takes about a fiftieth of the stretch's length; not for the interface's thread.
/// Errors: Cancelled; OutOfRange where the bars are not marked yet.
Result<std::vector<CheckedChord>> checkChords(const Study& study, const Range<Seconds>& stretch,
                                              const RecordingEvidence& recording, std::stop_token stop = {},
                                              const Progress& progress = {});

/// The answers that still hold: the same symbol stands at the same place and sounds at the same time. What is
/// written of the line has no say in it. A pure function.
std::vector<CheckedChord> chordsThatStand(const Study& study, std::vector<CheckedChord> answered);

/// The answer for the chord that sounds at a time; null where there is none. Points into the list.
const CheckedChord* answerAt(const std::vector<CheckedChord>& answers, Seconds time);

} // namespace earwright
