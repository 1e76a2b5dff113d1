#include "core/study/WrittenRun.h"

#include <algorithm>

namespace earwright {

namespace {

/// Where phrases are, those that overlap or touch taken together; rising.
std::vector<Range<Beats>> phrasesOf(const Study& study) {
    std::vector<Range<Beats>> phrases;
    for (const Span& span : study.spans) { // by their start
        if (span.kind != SpanKind::Phrase) continue;
        const Range<Beats> phrase = study.beatsOf(span);
        if (!phrases.empty() && phrase.begin <= phrases.back().end)
            phrases.back().end = std::max(phrases.back().end, phrase.end);
        else
            phrases.push_back(phrase);
    }
    return phrases;
}

/// Whole beats around the notes may reach into the phrases beside them.
void keepOutOf(const std::vector<Range<Beats>>& phrases, Range<Beats>& run, const Range<Beats>& notes) {
    for (const Range<Beats>& phrase : phrases) {
        if (phrase.end <= notes.begin) run.begin = std::max(run.begin, phrase.end);
        // The last note may sound into it.
        if (phrase.begin > notes.begin) run.end = std::min(run.end, phrase.begin);
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
    std::size_t next = 0; // phrase that is not over yet
    std::size_t nextOfRun = 0;
    for (const Note& note : study.notes) {
        while (next < phrases.size() && phrases[next].end <= note.onset)
            ++next;
        if (next < phrases.size() && phrases[next].begin <= note.onset) continue;
        const bool goesOn = !runs.empty() && next == nextOfRun &&
                            note.onset - runs.back().end < meters.barLength(meters.barOf(note.onset));
        if (goesOn)
            runs.back().end = std::max(runs.back().end, note.end());
        else
            runs.push_back(note.range());
        nextOfRun = next;
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
