// Making a loop by ear: one key for "from here", the same for "to here", others for moving its ends.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright::ui {

enum class LoopEnd { Start, End };

class LoopMaking {
public:
    /// The first call keeps the place, the second gives the loop between both, in whichever order they came.
    std::optional<Range<Seconds>> tap(Seconds ear);
    /// Where the loop being made begins.
    std::optional<Seconds> start() const { return from; }
    void giveUp() { from.reset(); }

    /// The loop with one end a little earlier (−1) or later (+1), within the recording and never shorter than
    /// the engine plays.
    static Range<Seconds> nudged(const Range<Seconds>& loop, LoopEnd end, int direction, Seconds duration);

private:
    std::optional<Seconds> from;
};

} // namespace earwright::ui
