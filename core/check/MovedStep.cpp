#include "core/check/MovedStep.h"

#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace earwright {

namespace {

struct NamedStep {
    Beats length;
    const char* name;
};

/// A beat is a quarter, whatever the meter.
const std::vector<NamedStep>& steps() {
    static const std::vector<NamedStep> all{
        {Beats(1, 4), "a sixteenth"},      {Beats(1, 3), "a triplet eighth"},
        {Beats(1, 2), "an eighth"},        {Beats(2, 3), "a triplet quarter"},
        {Beats(3, 4), "a dotted eighth"},  {Beats(1), "a quarter"},
        {Beats(3, 2), "a dotted quarter"}, {Beats(2), "a half"},
    };
    return all;
}

/// How far the notes of a run would stay from where they begin, in the mean.
Seconds leftOver(const std::vector<CheckedNote>& notes, const OffTogether& run, const Beats& step,
                 const Study& study) {
    double sum = 0;
    int count = 0;
    for (const CheckedNote& checked : notes) {
        const Note* note = study.note(checked.note);
        if (checked.together != run || !checked.beginsAt || !note) continue;
        sum += std::abs((playedTime(study, note->onset + step) - *checked.beginsAt).value);
        ++count;
    }
    return Seconds(count == 0 ? std::numeric_limits<double>::infinity() : sum / count);
}

std::optional<Beats> stepOf(const std::vector<CheckedNote>& notes, const OffTogether& run,
                            const Study& study) {
    constexpr Seconds nearEnough{0.035};
    constexpr double ofBeat = 0.1;
    // Lines are moved by an eighth or by quarters more often than by what lies between.
    constexpr Seconds seldom{0.010};
    std::optional<Beats> best;
    const double place = study.beatMap.beatsAt(run.run.begin);
    const Seconds beat = study.beatMap.secondsAt(place + 1) - study.beatMap.secondsAt(place);
    Seconds least = std::max(nearEnough, beat * ofBeat);
    for (const NamedStep& each : steps()) {
        const Beats step = run.later < Seconds(0) ? -each.length : each.length;
        const bool isUsual = (each.length * 2).denominator() == 1;
        const Seconds left = leftOver(notes, run, step, study) + (isUsual ? Seconds(0) : seldom);
        if (left >= least) continue;
        least = left;
        best = step;
    }
    return best;
}

} // namespace

void tellSteps(std::vector<CheckedNote>& notes, const Study& study) {
    for (const CheckedNote& first : notes) {
        if (!first.together || !first.together->isMoved() || first.together->step) continue;
        const OffTogether run = *first.together;
        const std::optional<Beats> step = stepOf(notes, run, study);
        if (!step) continue;
        for (CheckedNote& note : notes)
            if (note.together == run) note.together->step = step;
    }
}

const char* nameOfStep(const Beats& step) {
    const Beats length = step < Beats(0) ? -step : step;
    const auto found = std::ranges::find(steps(), length, &NamedStep::length);
    return found == steps().end() ? "" : found->name;
}

} // namespace earwright
