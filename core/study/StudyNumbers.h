// Numbers that stand all over a study file, read within their ranges.
#pragma once

#include "core/study/Limits.h"
#include "core/study/StrictJson.h"
#include "core/time/Seconds.h"

#include <cstdint>

namespace earwright {

/// Also of frames: what every reader of JSON holds exactly.
inline constexpr std::int64_t largestId = (std::int64_t{1} << 53) - 1;

inline std::uint64_t readId(const StrictJson& json) {
    return static_cast<std::uint64_t>(json.whole(1, largestId));
}

inline int readInt(const StrictJson& json, int least, int most) {
    return static_cast<int>(json.whole(least, most));
}

inline Seconds readSeconds(const StrictJson& json) {
    return Seconds(json.number(-furthestTime.value, furthestTime.value));
}

} // namespace earwright
