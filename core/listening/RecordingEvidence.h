// A recording made ready for listening: its sound at the analysis rate, and its tuning.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/Tuning.h"
#include "core/result/Result.h"
#include "core/sound/Recording.h"

#include <stop_token>

namespace earwright {

/// What is done once for a recording, so that any passage can be listened to at once.
///
/// Threads: a value; share it const. listen() and passage() take their time and belong on a thread of their
/// own; progress is called there.
class RecordingEvidence {
public:
    /// Reads the whole recording and finds its tuning. Errors: Cancelled.
    static Result<RecordingEvidence> listen(Recording& recording, std::stop_token stop = {},
                                            const Progress& progress = {});
    /// From sound that is already at hand. Error: Cancelled.
    static Result<RecordingEvidence> listen(AnalysisSound sound, std::stop_token stop = {});

    const Tuning& tuning() const { return own; }
    Seconds duration() const { return sound.duration(); }
    /// Evidence of a passage. Errors: Cancelled.
    Result<PassageEvidence> passage(Range<Seconds> range, std::stop_token stop = {},
                                    const Progress& progress = {}) const;

private:
    RecordingEvidence(AnalysisSound whole, Tuning tuning);

    AnalysisSound sound;
    Tuning own;
};

} // namespace earwright
