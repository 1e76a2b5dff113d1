#include "core/study/PracticeEdits.h"

#include "core/study/Limits.h"

#include <algorithm>
#include <cmath>

namespace earwright {

Study setLoop(const Study& study, const std::optional<Range<Seconds>>& loop) {
    Study edited = study;
    if (!loop) {
        edited.practice.loop.reset();
        return edited;
    }
    const Range<Seconds> ordered{std::min(loop->begin, loop->end), std::max(loop->begin, loop->end)};
    if (isWithinLimits(ordered) && !ordered.isEmpty()) edited.practice.loop = ordered;
    return edited;
}

Study setSpeed(const Study& study, double speed) {
    if (std::isnan(speed)) return study;
    Study edited = study;
    edited.practice.speed = std::clamp(speed, 0.1, 2.0);
    return edited;
}

Study setTransposition(const Study& study, int semitones, int cents) {
    Study edited = study;
    edited.practice.semitones = std::clamp(semitones, -12, 12);
    edited.practice.cents = std::clamp(cents, -100, 100);
    return edited;
}

} // namespace earwright
