// The check of any list of claims against a recording, passage by passage.
#pragma once

#include "core/check/NoteCheck.h"
#include "core/listening/ListeningWish.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"

#include <stop_token>
#include <vector>

namespace earwright {

/// Claims less than four seconds apart are checked together; sounds with no claim are looked for from a
/// second before the first of them to a second after the last. Without claims the whole recording is looked
/// through. Takes about a twentieth of the passages' length: not for the interface's thread.
/// Errors: Cancelled.
Result<NoteCheck> checkRecording(const RecordingEvidence& recording, const std::vector<Claim>& claims,
                                 std::stop_token stop = {}, const Progress& progress = {},
                                 const ListeningWish& wish = {});

} // namespace earwright
