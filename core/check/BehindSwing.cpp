#include "core/check/BehindSwing.h"

#include "core/check/Feel.h"
#include "core/check/OffBeat.h"

#include <algorithm>

namespace earwright {

std::optional<Seconds> swungBehind(const Study& study, const std::vector<Note>& notes, const Note& note,
                                   const PlayedNotes& played) {
    // What is nearer to even is told against its even place.
    constexpr double leastRatio = 1.17;
    const std::vector<OffBeat> between = offBeats(study, notes);
    const auto offBeat = std::ranges::find(between, note.onset, &OffBeat::place);
    const bool isEven = offBeat != between.end() && offBeat->isEven();
    if (!isEven || !study.page.swingAt(note.onset).isEven()) return std::nullopt;
    const auto swing = feelOf(study, notes, played).swing;
    if (!swing || swing->ratio < leastRatio) return std::nullopt;
    const double share = swing->ratio / (1 + swing->ratio);
    return study.beatMap.seconds(offBeat->pair).length() * (share - 0.5);
}

} // namespace earwright
