#include "core/study/SpanEdits.h"

#include "core/study/Limits.h"
#include "core/study/Order.h"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <optional>

namespace earwright {

namespace {

/// More choruses, or bars in one, than any recording holds.
constexpr int mostChoruses = 1000;
constexpr std::int64_t mostBars = 10'000;

/// Its ends in order, or nothing where that leaves no stretch of time.
std::optional<Range<Seconds>> inOrder(const Range<Seconds>& range) {
    if (!isWithinLimits(range)) return std::nullopt;
    const Range<Seconds> ordered{std::min(range.begin, range.end), std::max(range.begin, range.end)};
    if (ordered.isEmpty()) return std::nullopt;
    return ordered;
}

SpanId insertSpan(Study& study, SpanKind kind, const std::string& name, const Range<Seconds>& range) {
    const SpanId id{study.nextId++};
    study.spans.push_back({id, kind, name, range});
    sortLists(study);
    return id;
}

Seconds barLine(const Study& study, std::int64_t bar) {
    return study.beatMap.seconds(study.meters().barStart(bar));
}

/// Without those that overlap `range`; ones that only touch it by a hair's breadth of rounding stay.
void clearChoruses(Study& study, const Range<Seconds>& range) {
    constexpr Seconds touching{0.001};
    const Range<Seconds> inner{range.begin + touching, range.end - touching};
    std::erase_if(study.spans, [&](const Span& span) {
        return span.kind == SpanKind::Chorus && span.range.overlaps(inner);
    });
}

bool startsAfterTheEnd(const Study& study, Seconds time) {
    return study.recording.length > Frames(0) && time >= study.recording.rate.seconds(study.recording.length);
}

} // namespace

StudyWithSpan addSpan(const Study& study, SpanKind kind, const std::string& name,
                      const Range<Seconds>& range) {
    const std::optional<Range<Seconds>> ordered = inOrder(range);
    assert(ordered);
    StudyWithSpan edited{study, {}};
    edited.id = insertSpan(edited.study, kind, name, ordered.value_or(range));
    return edited;
}

Study renameSpan(const Study& study, SpanId id, const std::string& name) {
    Study edited = study;
    for (Span& span : edited.spans)
        if (span.id == id) span.name = name;
    return edited;
}

Study resizeSpan(const Study& study, SpanId id, const Range<Seconds>& range) {
    const std::optional<Range<Seconds>> ordered = inOrder(range);
    if (!ordered) return study;
    Study edited = study;
    for (Span& span : edited.spans)
        if (span.id == id) span.range = *ordered;
    sortLists(edited);
    return edited;
}

Study removeSpan(const Study& study, SpanId id) {
    Study edited = study;
    std::erase_if(edited.spans, [&](const Span& span) { return span.id == id; });
    return edited;
}

Study layOutChoruses(const Study& study, std::int64_t firstBar, std::int64_t barCount, int count) {
    const bool usable = barCount >= 1 && barCount <= mostBars && std::abs(firstBar) <= mostBars && count >= 1;
    if (!usable || !study.beatMap.hasTempo()) return study;
    count = std::min(count, mostChoruses);
    while (count > 0 && startsAfterTheEnd(study, barLine(study, firstBar + (count - 1) * barCount)))
        --count;
    const Range<Seconds> all{barLine(study, firstBar), barLine(study, firstBar + count * barCount)};
    if (count == 0 || !isWithinLimits(all)) return study;
    Study edited = study;
    clearChoruses(edited, all);
    const auto before = std::count_if(edited.spans.begin(), edited.spans.end(), [&](const Span& span) {
        return span.kind == SpanKind::Chorus && span.range.begin < all.begin;
    });
    for (int i = 0; i < count; ++i) {
        const std::int64_t first = firstBar + i * barCount;
        insertSpan(edited, SpanKind::Chorus, "Chorus " + std::to_string(before + 1 + i),
                   {barLine(study, first), barLine(study, first + barCount)});
    }
    return edited;
}

} // namespace earwright
