#include "core/study/BeatProposal.h"

#include "core/study/Limits.h"
#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright {

namespace {

constexpr std::int64_t furthestTapped = 8;
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

/// All beats as marks, for a map that has none.
Marks countedFromTheFirstBar(const std::vector<ProposedBeat>& beats) {
    const auto bar = std::find_if(beats.begin(), beats.end(),
                                  [](const ProposedBeat& beat) { return beat.barPosition == 1; });
    const std::ptrdiff_t first = bar == beats.end() ? 0 : bar - beats.begin();
    Marks marks;
    for (std::size_t i = 0; i < beats.size(); ++i)
        marks.push_back({Beats(static_cast<std::ptrdiff_t>(i) - first), beats[i].time});
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

/// The times between two others.
std::vector<Seconds> timesWithin(const std::vector<ProposedBeat>& beats, Seconds after, Seconds before) {
    std::vector<Seconds> times;
    for (const ProposedBeat& beat : beats)
        if (beat.time > after && beat.time < before) times.push_back(beat.time);
    return times;
}

/// The beats that lie around and between marks that are there. Requires: marks.
Marks countedFrom(const Marks& marks, const std::vector<ProposedBeat>& beats) {
    const Seconds reach = usualLength(beats) * sameBeat;
    Marks added;
    const auto count = [&added](const Beats& from, const std::vector<Seconds>& times) {
        for (std::size_t i = 0; i < times.size(); ++i)
            added.push_back({from + Beats(static_cast<std::int64_t>(i)), times[i]});
    };
    const auto before = timesWithin(beats, -furthestTime, marks.front().time - reach);
    count(marks.front().position - Beats(static_cast<std::int64_t>(before.size())), before);
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const auto between = timesWithin(beats, marks[i - 1].time + reach, marks[i].time - reach);
        const Beats missing = marks[i].position - marks[i - 1].position - Beats(1);
        if (missing == Beats(static_cast<std::int64_t>(between.size())))
            count(marks[i - 1].position + Beats(1), between);
    }
    count(marks.back().position + Beats(1), timesWithin(beats, marks.back().time + reach, furthestTime));
    return added;
}

} // namespace

std::vector<Seconds> tapsOf(const BeatMap& map, const Range<Seconds>& range) {
    std::vector<Seconds> taps;
    const Marks& marks = map.marks();
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const BeatMark& from = marks[i - 1];
        const BeatMark& to = marks[i];
        if (from.time < range.begin || to.time > range.end) continue;
        if (to.position - from.position > Beats(furthestTapped)) continue;
        for (Beats beat = from.position; beat < to.position; beat = beat + Beats(1))
            if (taps.empty() || map.seconds(beat) > taps.back()) taps.push_back(map.seconds(beat));
        taps.push_back(to.time);
    }
    return taps;
}

Study acceptBeats(const Study& study, std::vector<ProposedBeat> beats) {
    std::erase_if(beats, [](const ProposedBeat& beat) { return !isWithinLimits(beat.time); });
    std::sort(beats.begin(), beats.end(),
              [](const ProposedBeat& a, const ProposedBeat& b) { return a.time < b.time; });
    if (beats.size() < 2) return study;
    Marks marks = study.beatMap.marks();
    const bool isFirst = marks.empty();
    if (isFirst) {
        marks = countedFromTheFirstBar(beats);
    } else {
        const Marks added = countedFrom(marks, beats);
        marks.insert(marks.end(), added.begin(), added.end());
    }
    BeatMap map(std::move(marks));
    if (!isWithinLimits(map)) return study;
    Study edited = study;
    edited.beatMap = std::move(map);
    const auto perBar = isFirst && isMeterFree(study) ? beatsPerBarOf(beats) : std::nullopt;
    if (!perBar || *perBar == study.meter.beatsPerBar) return edited;
    return setMeter(edited, {*perBar, study.meter.beatUnit});
}

} // namespace earwright
