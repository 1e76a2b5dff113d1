// `play`: a recording through the sound device after a script, with a log of what was heard when.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* playUsage = "play AUDIO --script STEPS.tsv --log TAGS.tsv [--events EVENTS.tsv]";

/// Exit code as in Arguments.h. Without a device it plays in silence, says so, and returns exitInput.
int runPlay(std::span<const std::string> words);

} // namespace earwright::batch
