// `tuning AUDIO`: the recording's own A4.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* tuningUsage = "tuning AUDIO";

/// Prints `reference_hz cents confidence drift_cents` (from the lowest to the highest tuning; 0 where it
/// keeps) and returns the exit code.
int runTuning(std::span<const std::string> words);

} // namespace earwright::batch
