// Which of two neighbouring semitones a recording midway between them is written in.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <stop_token>
#include <vector>

namespace earwright {

/// A recording that runs half a semitone fast or slow may be read either way: 45 cents sharp, or 55 flat and
/// every pitch a semitone higher. Its tuning alone cannot say which; what is written can. The same recording
/// with its tuning moved by a semitone where the notes as a whole are heard better so, else as it was. Asked
/// of what it answered itself, it stays as it is.
///
/// All pitches that are counted from a recording's tuning follow: notes, traces, chords and hints. Some
/// thirty notes decide, taken from all over the line; fewer than four decide nothing.
/// Threads: hears up to some thirty notes where the tuning may be read either way, and nothing elsewhere; not
/// for the interface's thread. Errors: Cancelled.
Result<RecordingEvidence> asWritten(const std::vector<Claim>& claims, const RecordingEvidence& recording,
                                    std::stop_token stop = {});

/// The same by the notes of a study.
Result<RecordingEvidence> asWritten(const Study& study, const RecordingEvidence& recording,
                                    std::stop_token stop = {});

/// The claims by which asWritten() decides, by time: all that can be heard at both readings, or, of more than
/// 32, four times eight neighbours, the first and the last among them and as many left out between them.
std::vector<Claim> claimsAsked(const std::vector<Claim>& claims);

/// Whether so much of a line is written that asWritten() decides.
bool tellsItsReading(const Study& study);

/// The cents by which the tuning of a recording at these places would have to move to be read the other way:
/// 100 or −100; 0 where it is near enough to one semitone's pitch.
double otherReading(const TuningCurve& tuning, const std::vector<Range<Seconds>>& places);

} // namespace earwright
