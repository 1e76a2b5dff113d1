// The comparison of claimed notes with a passage of the recording.
#pragma once

#include "core/check/Claim.h"
#include "core/check/PhraseCheck.h"
#include "core/listening/PassageEvidence.h"

#include <optional>
#include <vector>

namespace earwright {

/// What the check found.
struct NoteCheck {
    /// One for each claim, in the claims' order.
    std::vector<ClaimAnswer> answers;
    /// Sounds of the line with no claim, by time; without those a suggestion already names.
    std::vector<UnwrittenSound> unwritten;
    /// How far the evenly written pairs swing, if they do; of a recording, those of the first passage that
    /// does.
    std::optional<SwingFeel> swing = std::nullopt;
    friend bool operator==(const NoteCheck&, const NoteCheck&) = default;
};

/// Checks claims against the evidence of a passage; a pure function.
///
/// Where the recording is tuned almost midway between two semitones, ask asWritten() beforehand.
/// Where evenly written pairs of eighths swing (swingIn), their notes are judged at the swing that is heard;
/// a note that is not supported at its place but is where its pitch begins nearby (besideItsPlace) is early
/// or late, and supported. Where a whole run would be right earlier, later or an octave away, that is said of
/// all of it (judgeOffRuns), and its sounds count as written. Claims may come in any order, should lie in the
/// passage and be longer than zero. A claim whose pitch lies outside lowestHeardMidi…highestHeardMidi cannot
/// be judged: it is unclear, with a score of one half.
NoteCheck checkNotes(const PassageEvidence& evidence, const std::vector<Claim>& claims);

} // namespace earwright
