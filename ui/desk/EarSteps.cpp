#include "ui/desk/EarSteps.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr double secondsPerBeat = 1;
constexpr double secondsPerBar = 4;
/// The ear rarely stops exactly on a line: nearer than this it counts as being there.
constexpr double onTheLine = 0.02;
constexpr Seconds nearby{1.0};
/// The ear stands on a frame of the recording, which may lie a hair before the place that was meant.
constexpr Seconds aHair{0.002};
/// A phrase begun this recently is still "this one", so that stepping back reaches the one before.
constexpr Seconds justBegun{0.3};

/// Without bars.
Seconds stepSeconds(Seconds from, double by, Seconds duration) {
    return std::clamp(from + Seconds(by), Seconds(0), duration);
}

/// The beginning of the counted beat so many beats on, or back.
Beats countFrom(const MeterMap& meters, double beats, int steps) {
    Beats place = meters.nearestCount(beats);
    const bool isOnIt = std::abs(beats - place.toDouble()) <= onTheLine;
    if (!isOnIt && place.toDouble() > beats && steps > 0) --steps;
    if (!isOnIt && place.toDouble() < beats && steps < 0) ++steps;
    for (; steps > 0; --steps)
        place = meters.nextCount(place);
    // A thousandth before a beat lies in the one before it.
    for (; steps < 0; ++steps)
        place = meters.countStart(place - Beats(1, 1000));
    return place;
}

} // namespace

Seconds stepBeats(const Study& study, Seconds from, int steps, Seconds duration) {
    if (!study.beatMap.hasTempo()) return stepSeconds(from, secondsPerBeat * steps, duration);
    const Beats to = countFrom(study.meters(), study.beatMap.beatsAt(from), steps);
    return std::clamp(study.beatMap.seconds(to), Seconds(0), duration);
}

Seconds stepBars(const Study& study, Seconds from, int steps, Seconds duration) {
    if (!study.beatMap.hasTempo()) return stepSeconds(from, secondsPerBar * steps, duration);
    const MeterMap meters = study.meters();
    const double bars = meters.barsAt(study.beatMap.beatsAt(from));
    const double line = steps > 0 ? std::floor(bars + onTheLine) : std::ceil(bars - onTheLine);
    return std::clamp(study.beatMap.secondsAt(meters.beatsAtBars(line + steps)), Seconds(0), duration);
}

const Span* nextPhrase(const Study& study, Seconds from) {
    for (const Span& span : study.spans)
        if (span.kind == SpanKind::Phrase && span.range.begin > from + aHair) return &span;
    return nullptr;
}

const Span* previousPhrase(const Study& study, Seconds from) {
    const Span* last = nullptr;
    for (const Span& span : study.spans)
        if (span.kind == SpanKind::Phrase && span.range.begin < from - justBegun) last = &span;
    return last;
}

const LooseEnd* looseEndNear(const Study& study, Seconds time) {
    const LooseEnd* nearest = nullptr;
    for (const LooseEnd& end : study.looseEnds) {
        const Seconds away(std::abs(end.time.value - time.value));
        if (away > nearby) continue;
        if (!nearest || away < Seconds(std::abs(nearest->time.value - time.value))) nearest = &end;
    }
    return nearest;
}

const Span* innermostSpan(const Study& study, Seconds time) {
    for (const SpanKind kind : {SpanKind::Phrase, SpanKind::Chorus, SpanKind::Section})
        if (const Span* span = study.spanAt(kind, time + aHair)) return span;
    return nullptr;
}

} // namespace earwright::ui
