// Time in the recording, in seconds from its first sample.
#pragma once

#include "core/time/Quantity.h"

namespace earwright {

struct SecondsTag;
/// Seconds of the recording; a difference of two is also Seconds.
using Seconds = Quantity<SecondsTag, double>;

} // namespace earwright
