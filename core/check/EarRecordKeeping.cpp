#include "core/check/EarRecordKeeping.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace earwright {

namespace {

/// A little more than the 50 ms within which the check takes an onset for the note's own, and less than the
/// shortest notes in use are apart (sixteenths at 240 bpm are 62 ms).
constexpr Seconds samePlace{0.06};

/// One thing a check says about one instant.
struct Finding {
    Seconds time;
    /// Of a written note; nothing for an unwritten sound.
    std::optional<Verdict> verdict;

    bool isWanting() const { return !verdict || *verdict == Verdict::Contradicted; }
};

std::vector<Finding> findingsOf(const PhraseCheck& check) {
    std::vector<Finding> findings;
    for (const CheckedNote& note : check.notes)
        findings.push_back({note.range.begin, note.verdict});
    for (const UnwrittenSound& sound : check.unwritten)
        findings.push_back({sound.range.begin, std::nullopt});
    return findings;
}

Seconds distance(Seconds a, Seconds b) {
    return Seconds(std::abs(a.value - b.value));
}

/// For each place the finding that goes with it, if any: nearest pairs first, each used once.
std::vector<std::optional<std::size_t>> paired(const std::vector<EarPlace>& places,
                                               const std::vector<Finding>& findings) {
    struct Pair {
        Seconds apart;
        std::size_t place;
        std::size_t finding;
    };
    std::vector<Pair> pairs;
    for (std::size_t p = 0; p < places.size(); ++p)
        for (std::size_t f = 0; f < findings.size(); ++f)
            if (distance(places[p].time, findings[f].time) <= samePlace)
                pairs.push_back({distance(places[p].time, findings[f].time), p, f});
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const Pair& a, const Pair& b) { return a.apart < b.apart; });
    std::vector<std::optional<std::size_t>> findingOf(places.size());
    std::vector<bool> used(findings.size(), false);
    for (const Pair& pair : pairs) {
        if (findingOf[pair.place] || used[pair.finding]) continue;
        findingOf[pair.place] = pair.finding;
        used[pair.finding] = true;
    }
    return findingOf;
}

/// A place with a finding of its own. An unclear note says neither that it was found nor that it was not.
void judge(EarPlace& place, const Finding& finding) {
    if (finding.verdict == Verdict::Unclear) return;
    place.settled = !finding.isWanting();
    if (finding.isWanting()) place.unwritten = !finding.verdict;
}

/// A place that no finding goes with any more.
bool isSettledWithoutFinding(const EarPlace& place, const std::vector<Finding>& findings) {
    const auto isNear = [&](const Finding& finding) {
        return distance(finding.time, place.time) <= samePlace;
    };
    if (place.unwritten)
        return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
            return isNear(finding) && finding.verdict == Verdict::Supported;
        });
    return std::none_of(findings.begin(), findings.end(), [&](const Finding& finding) {
        return isNear(finding) && finding.verdict != Verdict::Supported;
    });
}

PhraseRecord& entryOf(EarRecord& record, SpanId phrase) {
    for (PhraseRecord& entry : record.phrases)
        if (entry.phrase == phrase) return entry;
    return record.phrases.emplace_back(PhraseRecord{phrase, {}});
}

/// Adds a place, keeping the order of the recording.
EarPlace& addPlace(std::vector<EarPlace>& places, const EarPlace& place) {
    const auto after = std::upper_bound(places.begin(), places.end(), place,
                                        [](const EarPlace& a, const EarPlace& b) { return a.time < b.time; });
    return *places.insert(after, place);
}

} // namespace

EarRecord afterCheck(const EarRecord& record, const PhraseCheck& check, const Range<Seconds>& checked) {
    EarRecord kept = record;
    std::vector<EarPlace>& places = entryOf(kept, check.phrase).places;
    const std::vector<Finding> findings = findingsOf(check);
    const auto findingOf = paired(places, findings);
    std::vector<bool> known(findings.size(), false);
    for (std::size_t p = 0; p < places.size(); ++p) {
        if (findingOf[p]) {
            known[*findingOf[p]] = true;
            judge(places[p], findings[*findingOf[p]]);
        } else if (!places[p].settled && checked.contains(places[p].time)) {
            places[p].settled = isSettledWithoutFinding(places[p], findings);
        }
    }
    for (std::size_t f = 0; f < findings.size(); ++f)
        if (findings[f].isWanting() && !known[f])
            addPlace(places, {findings[f].time, HelpStep::None, false, !findings[f].verdict});
    return kept;
}

EarRecord withHelp(const EarRecord& record, SpanId phrase, Seconds time, HelpStep step) {
    EarRecord kept = record;
    std::vector<EarPlace>& places = entryOf(kept, phrase).places;
    EarPlace* nearest = nullptr;
    for (EarPlace& place : places)
        if (distance(place.time, time) <= samePlace &&
            (!nearest || distance(place.time, time) < distance(nearest->time, time)))
            nearest = &place;
    if (!nearest) nearest = &addPlace(places, {time});
    if (!nearest->settled) nearest->help = std::max(nearest->help, step);
    return kept;
}

} // namespace earwright
