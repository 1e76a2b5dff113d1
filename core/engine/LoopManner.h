// How a loop goes round: with a gap, a climb, or a speed for each turn of the trade.
#pragma once

#include "core/engine/Climb.h"

#include <optional>

namespace earwright {

/// Takes effect where a pass begins, to the frame.
struct LoopManner {
    static constexpr int mostGapBeats = 4;

    /// Beats of silence after each pass, 0 to 4: in the tempo of the beat map at the loop's end and at the
    /// speed of the pass before.
    int gapBeats = 0;
    /// The speed set is where it starts from. In trade a round is the record's pass and the one after it.
    std::optional<Climb> climb;
    /// In trade, played ÷ original; nothing is the speed set, as the climb has raised it by then.
    std::optional<double> tradeRecordSpeed;
    std::optional<double> tradeYoursSpeed;

    friend bool operator==(const LoopManner&, const LoopManner&) = default;
};

} // namespace earwright
