#include "core/study/PageOrder.h"

#include "core/study/Limits.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

std::int64_t placeOf(const KeyChange& change) {
    return change.bar;
}
std::int64_t placeOf(const MeterChange& change) {
    return change.bar;
}
std::int64_t placeOf(const Repeat& repeat) {
    return repeat.firstBar;
}
Beats placeOf(const Hairpin& hairpin) {
    return hairpin.range.begin;
}
template <class Mark>
Beats placeOf(const Mark& mark) {
    return mark.at;
}

bool isNear(std::int64_t bar) {
    return bar >= -furthestBeat && bar <= furthestBeat;
}

bool isUsable(const KeyChange& change) {
    return isNear(change.bar) && std::abs(change.key.fifths) <= mostFifths;
}

bool isUsable(const MeterChange& change) {
    const Meter& meter = change.meter;
    const bool isUnit =
        meter.beatUnit >= 1 && meter.beatUnit <= 32 && (meter.beatUnit & (meter.beatUnit - 1)) == 0;
    return isNear(change.bar) && change.bar >= 2 && meter.beatsPerBar >= 1 && meter.beatsPerBar <= 32 &&
           isUnit;
}

bool isUsable(const SwingChange& change) {
    const Swing& swing = change.swing;
    return swing.ratio >= leastSwing && swing.ratio <= mostSwing &&
           (swing.noteValue == 8 || swing.noteValue == 16);
}

bool isUsable(const TempoMark& mark) {
    if (!mark.quartersPerMinute) return !mark.words.empty();
    return *mark.quartersPerMinute >= slowestTempo && *mark.quartersPerMinute <= fastestTempo;
}

bool isUsable(const DynamicMark&) {
    return true;
}

bool isUsable(const Hairpin& hairpin) {
    return !hairpin.range.isEmpty();
}

bool isUsable(const TextMark& mark) {
    return !mark.text.empty() && mark.text.find('\0') == std::string::npos;
}

/// The one that was put in last keeps its place.
template <class Mark>
void settle(std::vector<Mark>& list) {
    std::erase_if(list, [](const Mark& mark) { return !isUsable(mark); });
    std::vector<Mark> kept;
    for (auto mark = list.rbegin(); mark != list.rend(); ++mark) {
        const bool isFree = std::all_of(kept.begin(), kept.end(), [&](const Mark& other) {
            return mayFollow(*mark, other) || mayFollow(other, *mark);
        });
        if (isFree) kept.push_back(*mark);
    }
    std::reverse(kept.begin(), kept.end());
    std::stable_sort(kept.begin(), kept.end(),
                     [](const Mark& a, const Mark& b) { return placeOf(a) < placeOf(b); });
    list = std::move(kept);
}

} // namespace

bool isUsablePickup(const Beats& length, const Meter& first) {
    constexpr std::int64_t finest = 32;
    return length > Beats(0) && length <= first.barLength() &&
           finest % (length.denominator() * first.beatUnit) == 0;
}

bool isUsable(const Repeat& repeat) {
    return isNear(repeat.firstBar) && isNear(repeat.lastBar) && repeat.times >= 2 &&
           repeat.times <= mostTimes && repeat.endingBars >= 0 && repeat.endingBars <= mostEndingBars &&
           repeat.firstBar + repeat.endingBars <= repeat.lastBar;
}

bool mayFollow(const KeyChange& a, const KeyChange& b) {
    return a.bar < b.bar;
}
bool mayFollow(const MeterChange& a, const MeterChange& b) {
    return a.bar < b.bar;
}
bool mayFollow(const SwingChange& a, const SwingChange& b) {
    return a.at < b.at;
}
bool mayFollow(const TempoMark& a, const TempoMark& b) {
    return a.at < b.at;
}
bool mayFollow(const DynamicMark& a, const DynamicMark& b) {
    return a.at < b.at;
}
bool mayFollow(const Hairpin& a, const Hairpin& b) {
    return a.range.begin < b.range.begin && a.range.end <= b.range.begin;
}
bool mayFollow(const TextMark& a, const TextMark& b) {
    return a.at <= b.at;
}
bool mayFollow(const Repeat& a, const Repeat& b) {
    return a.lastBar < b.firstBar;
}

PageMarks settled(PageMarks page) {
    settle(page.keys);
    settle(page.meters);
    settle(page.swings);
    settle(page.tempos);
    settle(page.dynamics);
    settle(page.hairpins);
    settle(page.texts);
    settle(page.repeats);
    return page;
}

} // namespace earwright
