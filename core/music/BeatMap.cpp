#include "core/music/BeatMap.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

namespace {

/// Two marks closer than this are one tap heard twice; the fastest beat in use (300 bpm in eighths) is 100
/// ms.
constexpr Seconds closestMarks{0.02};
/// Far below any sample, far above what rounding does to sums of seconds: a mark dragged right up to its
/// neighbour still follows it.
constexpr Seconds roundingOfTimes{1e-6};

/// One stretch alone may be a slip of the finger; from this many marks on, their tempo says whether bars went
/// by untapped.
constexpr std::size_t tapsToTrust = 3;
/// The tempo taps are held against is the median of so many last stretches: one slip does not move it, and a
/// drifting band is still followed.
constexpr std::size_t stretchesHeard = 8;

/// Seconds at a beat on the line through two marks.
Seconds alongLine(const BeatMark& from, const BeatMark& to, double beats) {
    const double share = (beats - from.position.toDouble()) / (to.position - from.position).toDouble();
    return from.time + (to.time - from.time) * share;
}

double beatsAlongLine(const BeatMark& from, const BeatMark& to, Seconds time) {
    return from.position.toDouble() +
           (to.position - from.position).toDouble() * ratio(time - from.time, to.time - from.time);
}

bool follows(const BeatMark& earlier, const BeatMark& later) {
    return earlier.position < later.position && earlier.time + closestMarks <= later.time + roundingOfTimes;
}

} // namespace

BeatMap::BeatMap(std::vector<BeatMark> marks) {
    std::stable_sort(marks.begin(), marks.end(),
                     [](const BeatMark& a, const BeatMark& b) { return a.position < b.position; });
    for (const BeatMark& mark : marks)
        if (std::isfinite(mark.time.value) && (list.empty() || follows(list.back(), mark)))
            list.push_back(mark);
}

Seconds BeatMap::secondsAt(double beats) const {
    assert(hasTempo());
    const auto after =
        std::upper_bound(list.begin() + 1, list.end() - 1, beats,
                         [](double b, const BeatMark& m) { return b < m.position.toDouble(); });
    return alongLine(*(after - 1), *after, beats);
}

std::size_t BeatMap::stretchForTime(Seconds time) const {
    const auto after = std::upper_bound(list.begin() + 1, list.end() - 1, time,
                                        [](Seconds t, const BeatMark& m) { return t < m.time; });
    return static_cast<std::size_t>(after - list.begin()) - 1;
}

double BeatMap::beatsAt(Seconds time) const {
    assert(hasTempo());
    const std::size_t stretch = stretchForTime(time);
    return beatsAlongLine(list[stretch], list[stretch + 1], time);
}

Range<Seconds> BeatMap::seconds(const Range<Beats>& range) const {
    return {seconds(range.begin), seconds(range.end)};
}

double BeatMap::tempoAt(Seconds time) const {
    assert(hasTempo());
    const std::size_t stretch = stretchForTime(time);
    const Seconds length = list[stretch + 1].time - list[stretch].time;
    return 60.0 * (list[stretch + 1].position - list[stretch].position).toDouble() / length.value;
}

/// Which places a tap can mean.
struct BeatMap::Taps {
    const MeterMap& meters;
    bool areBars;

    Beats nearest(double beats) const {
        return areBars ? meters.barStart(meters.nearestBar(beats)) : meters.nearestCount(beats);
    }
    Beats after(const Beats& place) const {
        return areBars ? meters.barStart(meters.barOf(place) + 1) : meters.nextCount(place);
    }
    Beats before(const Beats& place) const {
        return areBars ? meters.barStart(meters.barOf(place) - 1) : meters.previousCount(place);
    }
};

BeatMap BeatMap::tappedBar(Seconds time, const MeterMap& meters) const {
    return tapped(time, {meters, true});
}

BeatMap BeatMap::tappedBeat(Seconds time, const MeterMap& meters) const {
    return tapped(time, {meters, false});
}

BeatMap BeatMap::tapped(Seconds time, const Taps& taps) const {
    if (list.empty()) return withMark({Beats(0), time});
    const BeatMark& last = list.back();
    if (!hasTempo()) {
        // One mark and no tempo: the tap is its neighbour on whichever side it fell.
        const bool isBefore = time < last.time;
        return withMark({isBefore ? taps.before(last.position) : taps.after(last.position), time});
    }
    if (time <= last.time) return withMark({taps.nearest(beatsAt(time)), time});
    // A tap after the last mark never means the last mark again, however early it comes.
    const Beats next = taps.after(last.position);
    if (list.size() < tapsToTrust) return withMark({next, time});
    const double expected = last.position.toDouble() + ratio(time - last.time, usualBeat());
    return withMark({std::max(taps.nearest(expected), next), time});
}

Seconds BeatMap::usualBeat() const {
    const std::size_t first = list.size() > stretchesHeard ? list.size() - stretchesHeard : 1;
    std::vector<Seconds> lengths;
    for (std::size_t i = first; i < list.size(); ++i) {
        const double beats = (list[i].position - list[i - 1].position).toDouble();
        lengths.push_back((list[i].time - list[i - 1].time) * (1 / beats));
    }
    const auto middle = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2);
    std::nth_element(lengths.begin(), middle, lengths.end());
    return *middle;
}

BeatMap BeatMap::withMark(const BeatMark& mark) const {
    std::vector<BeatMark> others;
    for (const BeatMark& other : list)
        if (other.position != mark.position) others.push_back(other);
    const auto crosses = [&](const BeatMark& other) {
        return other.position < mark.position ? !follows(other, mark) : !follows(mark, other);
    };
    if (std::any_of(others.begin(), others.end(), crosses)) return *this;
    others.push_back(mark);
    return BeatMap(std::move(others));
}

std::optional<std::size_t> BeatMap::markNear(Seconds time, Seconds tolerance) const {
    std::optional<std::size_t> nearest;
    Seconds distance = tolerance;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Seconds away(std::abs(list[i].time.value - time.value));
        if (away > distance) continue;
        nearest = i;
        distance = away;
    }
    return nearest;
}

BeatMap BeatMap::moved(std::size_t index, Seconds time) const {
    assert(index < list.size());
    BeatMap result = *this;
    if (index > 0) time = std::max(time, list[index - 1].time + closestMarks);
    if (index + 1 < list.size()) time = std::min(time, list[index + 1].time - closestMarks);
    result.list[index].time = time;
    return result;
}

BeatMap BeatMap::removed(std::size_t index) const {
    assert(index < list.size());
    BeatMap result = *this;
    result.list.erase(result.list.begin() + static_cast<std::ptrdiff_t>(index));
    return result;
}

BeatMap BeatMap::renumbered(const Beats& by) const {
    BeatMap result = *this;
    for (BeatMark& mark : result.list)
        mark.position += by;
    return result;
}

} // namespace earwright
