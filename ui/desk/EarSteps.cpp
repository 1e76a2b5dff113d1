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

Seconds step(const Study& study, Seconds from, int steps, double unitBeats, double unitSeconds,
             Seconds duration) {
    Seconds to = from + Seconds(unitSeconds * steps);
    if (study.beatMap.hasTempo()) {
        const double units = study.beatMap.beatsAt(from) / unitBeats;
        const double line = steps > 0 ? std::floor(units + onTheLine) : std::ceil(units - onTheLine);
        to = study.beatMap.secondsAt((line + steps) * unitBeats);
    }
    return std::clamp(to, Seconds(0), duration);
}

} // namespace

Seconds stepBeats(const Study& study, Seconds from, int steps, Seconds duration) {
    return step(study, from, steps, 1, secondsPerBeat, duration);
}

Seconds stepBars(const Study& study, Seconds from, int steps, Seconds duration) {
    return step(study, from, steps, study.meter.beatsPerBar, secondsPerBar, duration);
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
