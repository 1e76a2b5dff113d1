// A passage listened to where its line is clearest, or where the user says.
#pragma once

#include "core/listening/ListeningWish.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"

#include <stop_token>
#include <vector>

namespace earwright {

/// Evidence of a passage for the spans of a line in it.
///
/// A wish (focus or band) is followed, and a range of the line too. Without a focus all of the recording is
/// listened to, in every view of its stereo picture; where the line is still not clear, the bands that the
/// low end and the hiss are outside of are tried, and one is kept only if the line is clearly clearer in it:
/// a band that takes partials away makes mistakes that look sure. For hints alone: the odds of the check were
/// fitted to the whole spectrum, and it does worse in a band. Spans should lie in the passage. Not for the
/// interface's thread: up to three times as long as RecordingEvidence::passage(). Errors: Cancelled.
Result<PassageEvidence> clearestPassage(const RecordingEvidence& recording, Range<Seconds> passage,
                                        const std::vector<Range<Seconds>>& spans,
                                        const ListeningWish& wish = {}, std::stop_token stop = {},
                                        const Progress& progress = {});

} // namespace earwright
