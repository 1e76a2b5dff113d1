// `convert STUDY OUT`: the written notes for other programs.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* convertUsage = "convert STUDY OUT.musicxml|OUT.mid";

/// Writes OUT, of the kind its name ends in, and returns the exit code.
int runConvert(std::span<const std::string> words);

} // namespace earwright::batch
