// `beats AUDIO [--taps T1,T2[,T3…]] [--meter N] [--from S] [--to S]`: where the beats are, from a few taps or
// from nothing.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* beatsUsage =
    "beats AUDIO [--taps T1,T2[,T3] [--meter BEATS]] [--from SECONDS] [--to SECONDS]";

/// Prints `time_s bar_position confidence`, one row a beat, and returns the exit code. A bar position of 0
/// says that nothing tells the bars apart; with --meter the first tap is the first beat of a bar.
int runBeats(std::span<const std::string> words);

} // namespace earwright::batch
