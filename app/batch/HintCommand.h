// `hint AUDIO --spans spans.tsv [--focus PART] [--band LOW HIGH]`: the pitch the recording supports most in
// each span.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* hintUsage =
    "hint AUDIO --spans SPANS.tsv [--focus all|left|right|centre|sides] [--band LOW HIGH]";

/// Prints `start_s end_s best_midi confidence`, one row a span, and returns the exit code.
int runHint(std::span<const std::string> words);

} // namespace earwright::batch
