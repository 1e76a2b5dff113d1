// `check AUDIO --notes notes.tsv` and `check STUDY`: what the recording says to each written note.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* checkUsage =
    "check AUDIO --notes NOTES.tsv | check STUDY   [--phrasing] [--focus all|left|right|centre|sides] "
    "[--band LOW HIGH] [--range LOW-HIGH|INSTRUMENT]";

/// Prints `kind onset_s dur_s midi verdict score suggested_midi` (for a study also `bar beat`), claimed rows
/// first, and returns the exit code. --phrasing adds what is measured about the playing of each note
/// (PhrasingColumns.h). The last columns are `listened`, where in the recording a claim was listened for,
/// `behind_ms`, how far behind its place a supported one was found (ahead: negative; empty at its place),
/// `begins_s`, where the pitch of another one begins instead, and `together`, of a note whose whole run is
/// off in one way, the sentence that says in which.
int runCheck(std::span<const std::string> words);

} // namespace earwright::batch
