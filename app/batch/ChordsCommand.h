// `chords STUDY`: what the recording says to each written chord.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* chordsUsage = "chords STUDY";

/// Prints `bar beat start_s end_s chord verdict score heard_against missing bass heard bass_expected
/// bass_verdict bass_score bass_played bass_clearness`, a row for each chord that stands over a bar of the
/// recording, and returns the exit code. Note names have commas between them. `bass` is what is played there
/// instead of root and written bass, empty where the bass expected is supported; `bass_played` is what is
/// played in any case; both are empty where nothing is.
int runChords(std::span<const std::string> words);

} // namespace earwright::batch
