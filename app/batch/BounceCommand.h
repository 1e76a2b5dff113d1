// `bounce`: a part of a recording at another speed and pitch, as a file.
#pragma once

#include <span>
#include <string>

namespace earwright::batch {

inline constexpr const char* bounceUsage = "bounce AUDIO OUT.wav|OUT.flac [--speed 0.1…2] [--semitones "
                                           "−12…12] [--cents −100…100] [--from S] [--to S]";

/// Exit code as in Arguments.h.
int runBounce(std::span<const std::string> words);

} // namespace earwright::batch
