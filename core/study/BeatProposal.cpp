#include "core/study/BeatProposal.h"

#include "core/study/Limits.h"
#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright {

namespace {

/// Counted beats from a mark to the next.
constexpr std::size_t furthestTapped = 8;
/// A proposed beat nearer to a mark than this part of a beat is the mark's.
constexpr double sameBeat = 0.5;

using Marks = std::vector<BeatMark>;

/// The length of most of the beats. Requires: two beats or more.
Seconds usualLength(const std::vector<ProposedBeat>& beats) {
    std::vector<Seconds> lengths;
    for (std::size_t i = 1; i < beats.size(); ++i)
        lengths.push_back(beats[i].time - beats[i - 1].time);
    const auto middle = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2);
    std::nth_element(lengths.begin(), middle, lengths.end());
    return *middle;
}

/// The times between two others.
std::vector<Seconds> timesWithin(const std::vector<ProposedBeat>& beats, Seconds after, Seconds before) {
    std::vector<Seconds> times;
    for (const ProposedBeat& beat : beats)
        if (beat.time > after && beat.time < before) times.push_back(beat.time);
    return times;
}

/// Marks for times that lie on the counted beats before a place, the last of them right before it.
void countBack(Marks& marks, Beats place, const std::vector<Seconds>& times, const MeterMap& meters) {
    for (auto time = times.rbegin(); time != times.rend(); ++time)
        marks.push_back({place = meters.previousCount(place), *time});
}

/// The same behind a place.
void countOn(Marks& marks, Beats place, const std::vector<Seconds>& times, const MeterMap& meters) {
    for (const Seconds time : times)
        marks.push_back({place = meters.nextCount(place), time});
}

/// The counted beats between two places; up to `most` of them, and one more where there are more.
std::vector<Beats> countsBetween(const Beats& from, const Beats& to, std::size_t most,
                                 const MeterMap& meters) {
    std::vector<Beats> counts;
    for (Beats at = meters.nextCount(from); at < to && counts.size() <= most; at = meters.nextCount(at))
        counts.push_back(at);
    return counts;
}

/// All beats as marks, for a map that has none.
Marks countedFromTheFirstBar(const std::vector<ProposedBeat>& beats, const MeterMap& meters) {
    auto first = std::find_if(beats.begin(), beats.end(),
                              [](const ProposedBeat& beat) { return beat.barPosition == 1; });
    if (first == beats.end()) first = beats.begin();
    Marks marks{{Beats(0), first->time}};
    countBack(marks, Beats(0), timesWithin(beats, -furthestTime, first->time), meters);
    countOn(marks, Beats(0), timesWithin(beats, first->time, furthestTime), meters);
    return marks;
}

/// How many beats the proposed bars have, where they are told.
std::optional<int> beatsPerBarOf(const std::vector<ProposedBeat>& beats) {
    int most = 0;
    for (const ProposedBeat& beat : beats)
        most = std::max(most, beat.barPosition);
    return most > 1 ? std::optional(most) : std::nullopt;
}

/// Nobody has chosen a meter or written anything that counts on it.
bool isMeterFree(const Study& study) {
    return study.meter == Meter{} && study.notes.empty() && study.page.meters.empty() &&
           study.chart == ChordChart{};
}

/// The beats that lie around and between marks that are there. Requires: marks.
Marks countedFrom(const Marks& marks, const std::vector<ProposedBeat>& beats, const MeterMap& meters) {
    const Seconds reach = usualLength(beats) * sameBeat;
    Marks added;
    countBack(added, marks.front().position, timesWithin(beats, -furthestTime, marks.front().time - reach),
              meters);
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const auto between = timesWithin(beats, marks[i - 1].time + reach, marks[i].time - reach);
        const auto missing = countsBetween(marks[i - 1].position, marks[i].position, between.size(), meters);
        if (missing.size() == between.size()) countOn(added, marks[i - 1].position, between, meters);
    }
    countOn(added, marks.back().position, timesWithin(beats, marks.back().time + reach, furthestTime),
            meters);
    return added;
}

/// The study's meter, or, while nothing counts on it, one whose bars are as long as the proposed ones.
Meter meterFor(const Study& study, const std::vector<ProposedBeat>& beats) {
    const auto perBar = beatsPerBarOf(beats);
    if (!perBar || !isMeterFree(study)) return study.meter;
    return {*perBar, study.meter.beatUnit};
}

} // namespace

std::vector<Seconds> tapsOf(const Study& study, const Range<Seconds>& range) {
    std::vector<Seconds> taps;
    const BeatMap& map = study.beatMap;
    const MeterMap meters = study.meters();
    const Marks& marks = map.marks();
    const auto add = [&taps](Seconds time) {
        if (taps.empty() || time > taps.back()) taps.push_back(time);
    };
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const BeatMark& from = marks[i - 1];
        const BeatMark& to = marks[i];
        if (from.time < range.begin || to.time > range.end) continue;
        const auto between = countsBetween(from.position, to.position, furthestTapped, meters);
        if (between.size() >= furthestTapped) continue;
        add(from.time);
        for (const Beats& beat : between)
            add(map.seconds(beat));
        add(to.time);
    }
    return taps;
}

Study acceptBeats(const Study& study, std::vector<ProposedBeat> beats) {
    std::erase_if(beats, [](const ProposedBeat& beat) { return !isWithinLimits(beat.time); });
    std::sort(beats.begin(), beats.end(),
              [](const ProposedBeat& a, const ProposedBeat& b) { return a.time < b.time; });
    if (beats.size() < 2) return study;
    Marks marks = study.beatMap.marks();
    Study edited = study;
    if (marks.empty()) {
        const Meter meter = meterFor(study, beats);
        if (meter != study.meter) edited = setMeter(study, meter);
        marks = countedFromTheFirstBar(beats, edited.meters());
    } else {
        const Marks added = countedFrom(marks, beats, study.meters());
        marks.insert(marks.end(), added.begin(), added.end());
    }
    BeatMap map(std::move(marks));
    if (!isWithinLimits(map)) return study;
    edited.beatMap = std::move(map);
    return edited;
}

} // namespace earwright
