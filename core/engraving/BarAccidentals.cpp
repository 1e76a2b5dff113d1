#include "core/engraving/BarAccidentals.h"

#include <utility>

namespace earwright {

void BarAccidentals::startBar(const KeySignature& next) {
    key = next;
    standing.clear();
    alteredBefore = std::exchange(altered, {});
}

int BarAccidentals::standingAt(const ReadPitch& pitch) const {
    const auto found = standing.find(pitch.letters());
    return found == standing.end() ? key.alterOf(pitch.name.step) : found->second;
}

std::optional<HeadSign> BarAccidentals::signOf(const ReadPitch& pitch, bool isTied) {
    const int alter = pitch.name.alter;
    const int letters = pitch.letters();
    if (alter == key.alterOf(pitch.name.step))
        altered.erase(letters);
    else
        altered[letters] = alter;
    // A tied note needs no sign of its own, not even behind a bar line, and sets none for later notes.
    if (isTied) return std::nullopt;
    const bool isShown = standingAt(pitch) != alter;
    standing[letters] = alter;
    const auto before = alteredBefore.find(letters);
    const bool wasOther = before != alteredBefore.end() && before->second != alter;
    // Told once: from here on it stands in this bar.
    if (before != alteredBefore.end()) alteredBefore.erase(before);
    if (isShown) return HeadSign{alter, false};
    return wasOther ? std::optional(HeadSign{alter, true}) : std::nullopt;
}

} // namespace earwright
