#include "core/engraving/RepeatSigns.h"

#include <algorithm>

namespace earwright {

namespace {

EndingPart firstEnding(const Repeat& repeat, std::int64_t bar) {
    EndingPart part;
    part.number = repeat.times == 2 ? "1." : "1.–" + std::to_string(repeat.times - 1) + ".";
    part.begins = bar == repeat.lastBar - repeat.endingBars + 1;
    part.ends = bar == repeat.lastBar;
    part.isClosed = true;
    return part;
}

EndingPart lastEnding(const Repeat& repeat, std::int64_t bar, std::int64_t lastBar) {
    return {std::to_string(repeat.times) + ".", bar == repeat.lastBar + 1, bar == lastBar, false};
}

} // namespace

RepeatSigns repeatSignsAt(const std::vector<Repeat>& repeats, std::int64_t bar) {
    RepeatSigns signs;
    for (std::size_t i = 0; i < repeats.size(); ++i) {
        const Repeat& repeat = repeats[i];
        signs.opens = signs.opens || bar == repeat.firstBar;
        if (bar == repeat.lastBar) {
            signs.closes = true;
            if (repeat.times > 2 && repeat.endingBars == 0) signs.saidTimes = repeat.times;
        }
        if (repeat.endingBars == 0) continue;
        std::int64_t last = repeat.lastBar + repeat.endingBars;
        if (i + 1 < repeats.size()) last = std::min(last, repeats[i + 1].firstBar - 1);
        if (bar > repeat.lastBar - repeat.endingBars && bar <= repeat.lastBar)
            signs.ending = firstEnding(repeat, bar);
        else if (bar > repeat.lastBar && bar <= last)
            signs.ending = lastEnding(repeat, bar, last);
    }
    return signs;
}

} // namespace earwright
