#include "core/study/Study.h"

#include <algorithm>
#include <iterator>

namespace earwright {

namespace {

/// Places chosen by ear fall on the nearest twelfth of a beat: the finest grid that halves and triplets
/// share.
constexpr std::int64_t partsOfABeat = 12;

template <class List, class Id>
auto findById(const List& list, Id id) {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const auto& item) { return item.id == id; });
    return found == list.end() ? nullptr : &*found;
}

std::int64_t nearestBarLine(const Study& study, Seconds time) {
    return study.meters().nearestBar(study.beatMap.beatsAt(time));
}

} // namespace

std::optional<BeatDivision> divisionInto(std::int64_t parts) {
    const bool isDrawn = parts >= 1 && parts <= 12;
    return isDrawn ? std::optional(static_cast<BeatDivision>(parts)) : std::nullopt;
}

BeatDivision Study::divisionOf(const Beats& beat) const {
    if (const auto found = divisions.find(beat); found != divisions.end()) return found->second;
    const MeterMap map = meters();
    return map.at(map.barOf(beat)).unitsPerCount() == 3 ? BeatDivision::Three : BeatDivision::Two;
}

const Span* Study::span(SpanId id) const {
    return findById(spans, id);
}

const Note* Study::note(NoteId id) const {
    return findById(notes, id);
}

const Take* Study::take(TakeId id) const {
    return findById(takes, id);
}

const Take* Study::chosenTake() const {
    const auto found =
        std::find_if(takes.begin(), takes.end(), [](const Take& candidate) { return candidate.chosen; });
    return found == takes.end() ? nullptr : &*found;
}

std::vector<Span> Study::spansOf(SpanKind kind) const {
    std::vector<Span> found;
    std::copy_if(spans.begin(), spans.end(), std::back_inserter(found),
                 [&](const Span& candidate) { return candidate.kind == kind; });
    return found;
}

const Span* Study::spanAt(SpanKind kind, Seconds time) const {
    const Span* innermost = nullptr;
    for (const Span& candidate : spans) {
        if (candidate.kind != kind || !candidate.range.contains(time)) continue;
        if (!innermost || candidate.range.length() < innermost->range.length()) innermost = &candidate;
    }
    return innermost;
}

std::vector<ChorusBars> Study::chorusBars() const {
    std::vector<ChorusBars> choruses;
    if (!beatMap.hasTempo()) return choruses;
    for (const Span& candidate : spans) {
        if (candidate.kind != SpanKind::Chorus) continue;
        const std::int64_t first = nearestBarLine(*this, candidate.range.begin);
        const std::int64_t count = nearestBarLine(*this, candidate.range.end) - first;
        if (count > 0) choruses.push_back({first, count});
    }
    return choruses;
}

std::optional<ChordSymbol> Study::chordAt(const Beats& place) const {
    return chart.chordAt(place, meters(), chorusBars());
}

BarChords Study::barChords(std::int64_t bar) const {
    return chart.barChords(bar, meters(), chorusBars());
}

Range<Beats> Study::beatsOf(const Span& span) const {
    return {Beats::nearest(beatMap.beatsAt(span.range.begin), partsOfABeat),
            Beats::nearest(beatMap.beatsAt(span.range.end), partsOfABeat)};
}

std::vector<Note> Study::notesIn(const Range<Beats>& range) const {
    const auto startsBefore = [](const Note& candidate, const Beats& place) {
        return candidate.onset < place;
    };
    const auto first = std::lower_bound(notes.begin(), notes.end(), range.begin, startsBefore);
    const auto last = std::lower_bound(first, notes.end(), range.end, startsBefore);
    return {first, last};
}

} // namespace earwright
