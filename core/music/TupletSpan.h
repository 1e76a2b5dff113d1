// Where in a bar one tuplet may stand for several beats.
#pragma once

#include "core/music/Meter.h"

#include <cstdint>

namespace earwright {

/// Whether a tuplet may span two or four beats of a bar, from one that is counted from 0: in the halves of
/// the bar, and anywhere in a bar that goes in threes or has no halves (common practice). Never where three
/// units are counted as one beat, nor where a part of it would be longer than a whole note. Threads: any.
bool mayTupletSpan(const Meter& meter, std::int64_t beat, std::int64_t beats);

} // namespace earwright
