// `hint AUDIO --spans spans.tsv [--focus PART] [--band LOW HIGH]`: the pitch the recording supports most in
// each span.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* hintUsage =
    "hint AUDIO --spans SPANS.tsv [--focus all|left|right|centre|sides] [--band LOW HIGH] "
    "[--range LOW-HIGH|INSTRUMENT]";

/// Prints `start_s end_s best_midi confidence listened`, one row a span, and returns the exit code.
/// `listened` is where in the recording it was listened for: where the options say, or else where the line is
/// clearest.
int runHint(std::span<const std::string> words);

} // namespace earwright::batch
