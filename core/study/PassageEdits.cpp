#include "core/study/PassageEdits.h"

#include "core/study/MeterEdits.h"
#include "core/study/PageEdits.h"
#include "core/study/PageOrder.h"

#include <cstdlib>

namespace earwright {

namespace {

Error outOfRange(std::string message) {
    return {ErrorKind::OutOfRange, std::move(message), ""};
}

std::optional<Error> whyNot(const PassageChange& change) {
    constexpr std::int64_t mostBars = 10'000;
    if (std::abs(change.firstBar) > mostBars) return outOfRange("No recording reaches to that bar.");
    if (change.bars && (*change.bars < 1 || *change.bars > mostBars))
        return outOfRange("A passage has 1 to 10 000 bars.");
    if (change.key && std::abs(change.key->fifths) > mostFifths)
        return outOfRange("A key has at most seven sharps or flats.");
    if (const auto& swing = change.swing; swing && (swing->ratio < leastSwing || swing->ratio > mostSwing))
        return outOfRange("Eighths swing from 1:1, which is even, to 4:1.");
    if (change.tempo)
        if (const auto& figure = change.tempo->quartersPerMinute;
            figure && (*figure < slowestTempo || *figure > fastestTempo))
            return outOfRange("A tempo has 10 to 600 quarters a minute.");
    if (!change.repeat || change.repeat->times <= 1) return std::nullopt;
    if (!change.bars) return outOfRange("Say how many bars are repeated.");
    if (change.repeat->times > mostTimes) return outOfRange("Bars can be repeated up to 99 times.");
    if (change.repeat->endingBars >= *change.bars)
        return outOfRange("A first ending needs at least one bar before it.");
    return std::nullopt;
}

Study withKey(const Study& study, const PassageChange& change) {
    const std::int64_t first = change.firstBar;
    Study edited = study;
    if (change.bars) {
        const std::int64_t end = first + *change.bars;
        const KeySignature after = study.page.keyAt(end);
        for (const KeyChange& each : study.page.keys)
            if (each.bar > first && each.bar < end) edited = setKey(edited, each.bar, std::nullopt);
        edited = setKey(edited, end, after);
    }
    return setKey(edited, first, change.key);
}

Study withSwing(const Study& study, const PassageChange& change) {
    const MeterMap meters = study.meters();
    const Beats begin = meters.barStart(change.firstBar);
    Study edited = study;
    if (change.bars) {
        const Beats end = meters.barStart(change.firstBar + *change.bars);
        const Swing after = study.page.swingAt(end);
        for (const SwingChange& each : study.page.swings)
            if (each.at > begin && each.at < end) edited = setSwing(edited, each.at, std::nullopt);
        edited = setSwing(edited, end, after);
    }
    return setSwing(edited, begin, change.swing);
}

Study withRepeat(const Study& study, const PassageChange& change) {
    if (change.repeat->times <= 1) return removeRepeat(study, change.firstBar);
    return setRepeat(study, {change.firstBar, change.firstBar + *change.bars - 1, change.repeat->times,
                             change.repeat->endingBars});
}

} // namespace

Result<Study> changePassage(const Study& study, const PassageChange& change) {
    if (auto error = whyNot(change)) return *error;
    Study edited = study;
    if (change.meter) {
        const Result<Study> counted = changeMeter(study, change.firstBar, *change.meter, change.bars);
        if (!counted) return counted.error();
        edited = *counted;
    }
    if (change.pickup) {
        const std::optional<Beats>& length = change.pickup->length;
        if (length && !isUsablePickup(*length, edited.meter))
            return outOfRange("A pickup is at most a bar long, in thirty-seconds or longer values.");
        edited = setPickup(edited, length);
    }
    if (change.key) edited = withKey(edited, change);
    if (change.swing) edited = withSwing(edited, change);
    if (change.tempo)
        edited = setTempoMark(edited, {edited.meters().barStart(change.firstBar), change.tempo->words,
                                       change.tempo->quartersPerMinute});
    if (change.repeat) edited = withRepeat(edited, change);
    return edited;
}

} // namespace earwright
