#include "core/study/SpreadEdits.h"

#include "core/study/DivisionEdits.h"
#include "core/study/Order.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <set>

namespace earwright {

namespace {

/// Where notes begin and the last one ends.
struct Places {
    std::vector<Beats> begins;
    Beats end;
};

bool isIn(const std::vector<NoteId>& ids, const Note& note) {
    return std::find(ids.begin(), ids.end(), note.id) != ids.end();
}

/// Their onsets as they are, and the whole counted beats they lie in.
Places placesOf(const Study& study, const std::vector<NoteId>& ids, Range<Beats>& beats) {
    std::set<Beats> begins;
    Places found;
    for (const Note& note : study.notes)
        if (isIn(ids, note)) {
            begins.insert(note.onset);
            found.end = begins.size() == 1 ? note.end() : std::max(found.end, note.end());
        }
    found.begins.assign(begins.begin(), begins.end());
    if (found.begins.empty()) return found;
    const MeterMap meters = study.meters();
    beats.begin = meters.countStart(found.begins.front());
    const Beats last = meters.countStart(found.end);
    beats.end = last == found.end ? last : meters.nextCount(last);
    return found;
}

/// How often a length goes into another, as a fraction.
Beats ratio(const Beats& length, const Beats& of) {
    return Beats(length.numerator() * of.denominator(), length.denominator() * of.numerator());
}

/// Columns for all onsets of a beat; false where no division has them.
bool divide(Study& study, const Range<Beats>& beat, const std::vector<Beats>& onsets) {
    std::int64_t parts = 1;
    for (const Beats& onset : onsets)
        if (beat.contains(onset))
            parts = std::lcm(parts, ratio(onset - beat.begin, beat.length()).denominator());
    const auto division = divisionInto(parts);
    // Where all begins on the beat the columns may stay as they are.
    if (parts > 1 && division) study = setDivision(study, beat.begin, *division);
    return division.has_value();
}

} // namespace

Study spreadEvenly(const Study& study, const std::vector<NoteId>& ids) {
    Range<Beats> beats;
    const Places old = placesOf(study, ids, beats);
    if (old.begins.size() < 2) return study;
    const bool isAlone = std::none_of(study.notes.begin(), study.notes.end(), [&](const Note& note) {
        return !isIn(ids, note) && beats.contains(note.onset);
    });
    if (!isAlone) return study;
    const auto count = static_cast<std::int64_t>(old.begins.size());
    std::vector<Beats> onsets;
    for (std::int64_t i = 0; i < count; ++i)
        onsets.push_back(beats.begin + beats.length() * i / count);
    Study edited = study;
    const MeterMap meters = study.meters();
    for (Beats beat = beats.begin; beat < beats.end; beat = meters.nextCount(beat))
        if (!divide(edited, {beat, meters.nextCount(beat)}, onsets)) return study;
    for (Note& note : edited.notes) {
        if (!isIn(ids, note)) {
            if (note.onset < beats.begin) note.length = std::min(note.length, beats.begin - note.onset);
            continue;
        }
        const auto place = std::find(old.begins.begin(), old.begins.end(), note.onset) - old.begins.begin();
        note.onset = onsets[static_cast<std::size_t>(place)];
        note.length = beats.length() / count;
    }
    sortLists(edited);
    return edited;
}

} // namespace earwright
