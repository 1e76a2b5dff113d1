// `feel STUDY`: how its phrases are placed in time.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* feelUsage = "feel STUDY";

/// Prints `phrase start_s end_s notes pairs swing_ratio swing_least swing_most short_eighth_ms on_beat
/// placement_ms placement_spread_ms`: a row a phrase, or one for all notes where there is no phrase, and
/// returns the exit code. What was heard too little of is left empty; placement is behind the beat, ahead is
/// negative.
int runFeel(std::span<const std::string> words);

} // namespace earwright::batch
