#include "core/study/SpreadEdits.h"

#include "core/study/DivisionEdits.h"
#include "core/study/Order.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <optional>
#include <set>

namespace earwright {

namespace {

/// Where notes begin, and the whole counted beats they lie in.
struct Places {
    std::vector<Beats> begins;
    Range<Beats> beats;
};

bool isIn(const std::vector<NoteId>& ids, const Note& note) {
    return std::find(ids.begin(), ids.end(), note.id) != ids.end();
}

Places placesOf(const Study& study, const std::vector<NoteId>& ids) {
    std::set<Beats> begins;
    Beats end;
    for (const Note& note : study.notes)
        if (isIn(ids, note)) {
            if (begins.empty() || note.end() > end) end = note.end();
            begins.insert(note.onset);
        }
    Places found{{begins.begin(), begins.end()}, {}};
    if (found.begins.empty()) return found;
    const MeterMap meters = study.meters();
    const Beats last = meters.countStart(end);
    found.beats = {meters.countStart(found.begins.front()), last == end ? last : meters.nextCount(last)};
    return found;
}

/// Columns for all onsets of a beat; false where no division has them.
bool divide(Study& study, const Range<Beats>& beat, const std::vector<Beats>& onsets) {
    std::int64_t parts = 1;
    for (const Beats& onset : onsets)
        if (beat.contains(onset))
            parts = std::lcm(parts, ratio(onset - beat.begin, beat.length()).denominator());
    const auto division = divisionInto(parts);
    // Columns that have these places already may stay as they are.
    const bool hasThem = static_cast<std::int64_t>(study.divisionOf(beat.begin)) % parts == 0;
    if (division && !hasThem) study = setDivision(study, beat.begin, *division);
    return division.has_value();
}

} // namespace

Study spreadEvenly(const Study& study, const std::vector<NoteId>& ids) {
    const Places old = placesOf(study, ids);
    const Range<Beats>& beats = old.beats;
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
