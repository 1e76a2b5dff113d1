#include "core/music/TupletSpan.h"

namespace earwright {

bool mayTupletSpan(const Meter& meter, std::int64_t beat, std::int64_t beats) {
    const std::int64_t count = meter.beatsPerBar;
    if (meter.goesInThrees() || beat < 0 || beat + beats > count || meter.beatUnit < beats) return false;
    if (beats == 4) return count % 4 == 0 && beat % 4 == 0;
    if (count % 3 == 0) return beat % 3 < 2;
    return count % 2 != 0 || beat % 2 == 0;
}

} // namespace earwright
