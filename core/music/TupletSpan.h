// Where in a bar one tuplet may stand for several beats.
#pragma once

#include "core/music/Meter.h"

#include <cstdint>

namespace earwright {

/// Whether a tuplet may span two or four beats of a bar, from one that is counted from 0 (common practice).
/// Two: from each second beat of a bar that goes in twos, within three beats of one that goes in threes (3/4,
/// 6/4), anywhere in others (5/4). Four: from each fourth beat of a bar that goes in fours. Never over the
/// bar line, nor where eighths go in threes (Meter::goesInThrees), nor where it would be written in whole
/// notes or longer ones. Requires: beats 2 or 4. Threads: any.
bool mayTupletSpan(const Meter& meter, std::int64_t beat, std::int64_t beats);

} // namespace earwright
