#include "core/study/WrittenRun.h"

#include <algorithm>

namespace earwright {

namespace {

std::vector<Range<Beats>> phrasesOf(const Study& study) {
    std::vector<Range<Beats>> phrases;
    for (const Span& span : study.spans)
        if (span.kind == SpanKind::Phrase) phrases.push_back(study.beatsOf(span));
    return phrases;
}

/// Whole beats around the notes may reach into the phrases beside them.
void keepOutOf(const std::vector<Range<Beats>>& phrases, Range<Beats>& run, const Range<Beats>& notes) {
    for (const Range<Beats>& phrase : phrases) {
        if (phrase.end <= notes.begin) run.begin = std::max(run.begin, phrase.end);
        if (phrase.begin >= notes.end) run.end = std::min(run.end, phrase.begin);
    }
}

Beats distance(const Range<Beats>& run, const Beats& place) {
    if (place < run.begin) return run.begin - place;
    return place < run.end ? Beats(0) : place - run.end;
}

/// Notes in no phrase, from the first onset to the last end, divided where a bar of rest or a phrase is.
std::vector<Range<Beats>> looseRuns(const Study& study, const std::vector<Range<Beats>>& phrases) {
    const MeterMap meters = study.meters();
    std::vector<Range<Beats>> runs;
    bool isPhraseBetween = false;
    for (const Note& note : study.notes) {
        const bool isLoose = std::none_of(phrases.begin(), phrases.end(), [&](const Range<Beats>& phrase) {
            return phrase.contains(note.onset);
        });
        if (!isLoose) {
            isPhraseBetween = true;
            continue;
        }
        const bool goesOn = !runs.empty() && !isPhraseBetween &&
                            note.onset - runs.back().end < meters.barLength(meters.barOf(note.onset));
        if (goesOn)
            runs.back().end = std::max(runs.back().end, note.end());
        else
            runs.push_back(note.range());
        isPhraseBetween = false;
    }
    return runs;
}

} // namespace

std::optional<Range<Beats>> writtenRunAt(const Study& study, const Beats& place) {
    const std::vector<Range<Beats>> phrases = phrasesOf(study);
    const std::vector<Range<Beats>> runs = looseRuns(study, phrases);
    const auto nearest = std::min_element(runs.begin(), runs.end(), [&](const auto& one, const auto& other) {
        return distance(one, place) < distance(other, place);
    });
    const MeterMap meters = study.meters();
    if (nearest == runs.end() || distance(*nearest, place) >= meters.barLength(meters.barOf(place)))
        return std::nullopt;
    Range<Beats> run{meters.countStart(nearest->begin), nearest->end};
    if (meters.countStart(run.end) != run.end) run.end = meters.nextCount(run.end);
    keepOutOf(phrases, run, *nearest);
    return run;
}

} // namespace earwright
