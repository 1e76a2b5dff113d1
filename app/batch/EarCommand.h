// `ear STUDY`: how much was found by ear, over time, by interval and by what was off first.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* earUsage = "ear STUDY [--by week|month]";

/// Prints `group key found unaided helped` and returns the exit code: a row for all (without a key), for each
/// week (the day of its Monday) or month (its first day), for each interval from the note before in semitones
/// (13 for what is wider than an octave), and for each kind of first mistake (`none` for what was right at
/// once). The recording is not needed.
int runEar(std::span<const std::string> words);

} // namespace earwright::batch
