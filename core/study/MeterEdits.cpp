#include "core/study/MeterEdits.h"

#include "core/study/Limits.h"
#include "core/study/Recounting.h"

#include <algorithm>
#include <cstdlib>

namespace earwright {

namespace {

constexpr int mostBeatsPerBar = 32;
constexpr int shortestBeatUnit = 32;
/// Of bars; more than any recording holds.
constexpr std::int64_t mostBars = 10'000;

bool isUsable(const Meter& meter) {
    const bool powerOfTwo = meter.beatUnit > 0 && (meter.beatUnit & (meter.beatUnit - 1)) == 0;
    return meter.beatsPerBar >= 1 && meter.beatsPerBar <= mostBeatsPerBar && powerOfTwo &&
           meter.beatUnit <= shortestBeatUnit;
}

Error outOfRange(std::string message) {
    return {ErrorKind::OutOfRange, std::move(message), ""};
}

/// The bars whose meter changes.
struct Stretch {
    std::int64_t firstBar;
    std::optional<std::int64_t> endBar;
    bool isCounted;
};

Stretch stretchFrom(const Study& study, std::int64_t bar, std::optional<std::int64_t> bars) {
    if (bars) return {bar, bar + *bars, true};
    for (const MeterChange& change : study.page.meters)
        if (change.bar > bar) return {bar, change.bar, false};
    return {bar, std::nullopt, false};
}

/// Whether what is marked in a stretch are bar lines, so that they are bar lines under any meter.
bool barLinesAreMarked(const Study& study, const Stretch& stretch) {
    const MeterMap meters = study.meters();
    const Beats begin = meters.barStart(stretch.firstBar);
    const auto& marks = study.beatMap.marks();
    const auto isMarked = [&](const Beats& place) {
        return std::any_of(marks.begin(), marks.end(),
                           [&](const BeatMark& mark) { return mark.position == place; });
    };
    bool hasMore = false;
    bool goesOn = false;
    for (const BeatMark& mark : marks) {
        const bool isBehind = stretch.endBar && mark.position > meters.barStart(*stretch.endBar);
        goesOn = goesOn || isBehind;
        if (isBehind || (stretch.firstBar > 1 && mark.position < begin)) continue;
        if (!meters.isBarLine(mark.position)) return false;
        hasMore = hasMore || mark.position > begin;
    }
    const bool endsOnMark = !goesOn || isMarked(meters.barStart(*stretch.endBar));
    if (stretch.firstBar <= 1) return endsOnMark;
    return isMarked(begin) && hasMore && endsOnMark;
}

std::vector<MeterChange> changesUpTo(const Study& study, std::int64_t bar, const Meter& meter) {
    std::vector<MeterChange> changes;
    for (const MeterChange& change : study.page.meters)
        if (change.bar < bar) changes.push_back(change);
    if (bar > 1) changes.push_back({bar, meter});
    return changes;
}

/// Bars keep their numbers, and their sound; beats within them are other ones.
Recounting keepingBars(const Study& study, const Stretch& stretch, const Meter& meter) {
    const MeterMap then = study.meters();
    const Meter first = stretch.firstBar <= 1 ? meter : study.meter;
    std::vector<MeterChange> changes = changesUpTo(study, stretch.firstBar, meter);
    if (stretch.endBar) {
        changes.push_back({*stretch.endBar, then.at(*stretch.endBar)});
        for (const MeterChange& change : study.page.meters)
            if (change.bar > *stretch.endBar) changes.push_back(change);
    }
    const MeterMap now(first, changes);
    const auto newPlace = [then, now](const Beats& place) {
        const std::int64_t bar = then.barOf(place);
        const Beats since = then.withinBar(place);
        const Beats before = then.barLength(bar);
        const Beats after = now.barLength(bar);
        return now.barStart(bar) + Beats(since.numerator() * after.numerator() * before.denominator(),
                                         since.denominator() * after.denominator() * before.numerator());
    };
    return {first, std::move(changes), newPlace, [](std::int64_t bar) { return bar; }};
}

/// Beats last as long as they did; bars are counted anew.
Recounting keepingBeats(const Study& study, const Stretch& stretch, const Meter& meter) {
    const MeterMap then = study.meters();
    const Meter first = stretch.firstBar <= 1 ? meter : study.meter;
    std::vector<MeterChange> changes = changesUpTo(study, stretch.firstBar, meter);
    std::optional<Beats> end;
    if (stretch.isCounted)
        end = MeterMap(first, changes).barStart(*stretch.endBar);
    else if (stretch.endBar)
        end = then.barStart(*stretch.endBar);
    // Beyond the stretch beats are still those of their own meter, which the first one's unit counts.
    const auto newPlace = [end, from = study.meter.beatUnit, to = first.beatUnit](const Beats& place) {
        return !end || place < *end ? place : *end + (place - *end) * to / from;
    };
    std::vector<std::pair<Beats, Meter>> later;
    if (stretch.isCounted) later.emplace_back(*end, then.at(then.barOf(*end)));
    for (const MeterChange& change : study.page.meters) {
        const Beats start = then.barStart(change.bar);
        if (end && start >= *end) later.emplace_back(newPlace(start), change.meter);
    }
    changes = continued(first, std::move(changes), later);
    const MeterMap now(first, changes);
    return {first, std::move(changes), newPlace, [then, now, newPlace](std::int64_t bar) {
                return now.nearestBar(newPlace(then.barStart(bar)).toDouble());
            }};
}

/// Without changes to the meter that stands already.
std::vector<MeterChange> withoutRepetition(const Meter& first, const std::vector<MeterChange>& changes) {
    std::vector<MeterChange> kept;
    for (const MeterChange& change : changes)
        if (change.meter != (kept.empty() ? first : kept.back().meter)) kept.push_back(change);
    return kept;
}

/// Whether every place is one that a study file can keep.
bool canBeKept(const Study& study) {
    constexpr std::int64_t finestPart = 999;
    const auto isCoarse = [](const Beats& place) { return place.denominator() <= finestPart; };
    const PageMarks& page = study.page;
    const auto areCoarse = [&](const auto& marks) {
        return std::all_of(marks.begin(), marks.end(), [&](const auto& mark) { return isCoarse(mark.at); });
    };
    return isWithinLimits(study.beatMap) &&
           std::all_of(study.beatMap.marks().begin(), study.beatMap.marks().end(),
                       [&](const BeatMark& mark) { return isCoarse(mark.position); }) &&
           std::all_of(study.notes.begin(), study.notes.end(),
                       [&](const Note& note) { return isCoarse(note.onset) && isCoarse(note.length); }) &&
           std::all_of(
               page.hairpins.begin(), page.hairpins.end(),
               [&](const Hairpin& each) { return isCoarse(each.range.begin) && isCoarse(each.range.end); }) &&
           areCoarse(page.swings) && areCoarse(page.tempos) && areCoarse(page.dynamics) &&
           areCoarse(page.texts);
}

} // namespace

Result<Study> changeMeter(const Study& study, std::int64_t bar, const Meter& meter,
                          std::optional<std::int64_t> bars) {
    if (!isUsable(meter))
        return outOfRange("No bar has " + std::to_string(meter.beatsPerBar) + " beats of 1/" +
                          std::to_string(meter.beatUnit) +
                          "; a bar has 1 to 32 beats, each a whole note to a thirty-second.");
    if (std::abs(bar) > mostBars)
        return outOfRange("No recording reaches to bar " + std::to_string(bar) + ".");
    if (bars && (*bars < 1 || *bars > mostBars)) return outOfRange("A meter can stand for 1 to 10 000 bars.");
    bar = std::max<std::int64_t>(bar, 1);
    const Stretch stretch = stretchFrom(study, bar, bars);
    Recounting recounting = barLinesAreMarked(study, stretch) ? keepingBars(study, stretch, meter)
                                                              : keepingBeats(study, stretch, meter);
    recounting.changes = withoutRepetition(recounting.first, recounting.changes);
    Study edited = recounted(study, recounting);
    if (!canBeKept(edited))
        return outOfRange(
            "Counted in that meter, notes or marks would stand at fractions of a beat that a study "
            "cannot keep; mark single beats first, so that they stay as they are.");
    return edited;
}

Study setMeter(const Study& study, const Meter& meter) {
    const Result<Study> edited = changeMeter(study, 1, meter);
    return edited ? *edited : study;
}

Study removeMeterChange(const Study& study, std::int64_t bar) {
    const bool isSet = std::any_of(study.page.meters.begin(), study.page.meters.end(),
                                   [&](const MeterChange& change) { return change.bar == bar; });
    if (!isSet) return study;
    const Result<Study> edited = changeMeter(study, bar, study.meters().at(bar - 1));
    return edited ? *edited : study;
}

Study startBarOneAt(const Study& study, Seconds time) {
    if (!isWithinLimits(time) || !study.beatMap.hasTempo()) return study;
    const MeterMap then = study.meters();
    const Beats origin = then.nearestCount(study.beatMap.beatsAt(time));
    const Meter first = then.at(then.barOf(origin));
    const auto newPlace = [origin, from = study.meter.beatUnit, to = first.beatUnit](const Beats& place) {
        return (place - origin) * to / from;
    };
    std::vector<std::pair<Beats, Meter>> later;
    for (const MeterChange& change : study.page.meters)
        if (const Beats start = then.barStart(change.bar); start > origin)
            later.emplace_back(newPlace(start), change.meter);
    std::vector<MeterChange> changes = continued(first, {}, later);
    const MeterMap now(first, changes);
    Study edited = recounted(study, {first, std::move(changes), newPlace, [&](std::int64_t bar) {
                                         return now.nearestBar(newPlace(then.barStart(bar)).toDouble());
                                     }});
    return canBeKept(edited) ? edited : study;
}

} // namespace earwright
