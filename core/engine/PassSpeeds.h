// How fast each pass of a loop goes: the speed set, as far as it has climbed, or the turn's own in trade.
#pragma once

#include "core/engine/LoopManner.h"

#include <cstdint>
#include <optional>

namespace earwright {

/// Passes are numbered from where the loop or the place was chosen. A round of the climb is a pass; in trade
/// it is the record's pass and the written notes' pass after it. Rounds heard to their end stay counted over
/// pauses and seeks.
///
/// Threads: one at a time (the engine's worker).
/// Units: speed is played ÷ original.
class PassSpeeds {
public:
    /// A speed chosen by hand: the climb goes on from there and counts its rounds anew.
    void set(double speed);
    /// Another climb starts from the speed reached.
    void setManner(const LoopManner& wanted);
    const LoopManner& manner() const { return how; }
    /// The pass from which trade counts, the record's; nothing: no trade.
    void setTrade(std::optional<std::int64_t> firstRecordPass) { tradeStart = firstRecordPass; }
    bool isYoursTurn(std::int64_t pass) const;

    /// Another loop: rounds are counted anew from the speed reached.
    void restartRounds();
    /// A step slower, rounds counted anew. Nothing without a climb.
    void climbBack();
    /// All passes before this one are over.
    void hear(std::int64_t pass);
    /// Passes are numbered anew, and this one begins.
    void renumber(std::int64_t pass) { heard = pass; }

    /// Of a pass not before the one heard.
    double speedOf(std::int64_t pass) const;
    /// The speed set, as far as it has climbed by that pass.
    double reachedAt(std::int64_t pass) const;

private:
    std::int64_t roundsUntil(std::int64_t pass) const;

    LoopManner how;
    std::optional<std::int64_t> tradeStart;
    double from = 1;
    std::int64_t rounds = 0;
    std::int64_t heard = 0;
};

} // namespace earwright
