#include "core/engine/PassSpeeds.h"

#include <algorithm>

namespace earwright {

void PassSpeeds::set(double speed) {
    from = speed;
    rounds = 0;
}

void PassSpeeds::setManner(const LoopManner& wanted) {
    if (wanted.climb != how.climb) restartRounds();
    how = wanted;
}

void PassSpeeds::restartRounds() {
    from = reachedAt(heard);
    rounds = 0;
}

void PassSpeeds::climbBack() {
    if (how.climb) set(how.climb->stepBack(reachedAt(heard)));
}

bool PassSpeeds::isYoursTurn(std::int64_t pass) const {
    return tradeStart && (pass - *tradeStart) % 2 != 0;
}

void PassSpeeds::hear(std::int64_t pass) {
    rounds += roundsUntil(pass);
    heard = std::max(heard, pass);
}

/// Rounds that end between the beginning of the pass heard and that of another.
std::int64_t PassSpeeds::roundsUntil(std::int64_t pass) const {
    const std::int64_t passes = std::max<std::int64_t>(0, pass - heard);
    if (!tradeStart) return passes;
    // In trade every second pass ends a round: the first of them, where it began on the written notes.
    return (passes + (isYoursTurn(heard) ? 1 : 0)) / 2;
}

double PassSpeeds::reachedAt(std::int64_t pass) const {
    return how.climb ? how.climb->speedAfter(from, rounds + roundsUntil(pass)) : from;
}

double PassSpeeds::speedOf(std::int64_t pass) const {
    if (tradeStart)
        if (const auto& own = isYoursTurn(pass) ? how.tradeYoursSpeed : how.tradeRecordSpeed) return *own;
    return reachedAt(pass);
}

} // namespace earwright
