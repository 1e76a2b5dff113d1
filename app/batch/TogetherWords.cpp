#include "app/batch/TogetherWords.h"

#include "core/check/MovedStep.h"

#include <cmath>

namespace earwright::batch {

namespace {

std::string movedWords(const OffTogether& together) {
    const std::string distance =
        together.step ? nameOfStep(*together.step)
                      : std::to_string(std::lround(1000 * std::abs(together.later.value))) + " ms";
    return distance + (together.later < Seconds(0) ? " earlier" : " later");
}

} // namespace

std::string wordsFor(const std::optional<OffTogether>& together) {
    if (!together) return {};
    const std::string how = together->isMoved()       ? movedWords(*together)
                            : together->semitones > 0 ? "an octave higher"
                                                      : "an octave lower";
    return "the recording has these " + std::to_string(together->notes) + " notes " + how;
}

} // namespace earwright::batch
