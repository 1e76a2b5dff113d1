// `tuning AUDIO`: the recording's own A4.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* tuningUsage = "tuning AUDIO";

/// Prints `reference_hz cents confidence` and returns the exit code.
int runTuning(std::span<const std::string> words);

} // namespace earwright::batch
