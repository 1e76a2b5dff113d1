#include "core/check/EarRecordKeeping.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <utility>
#include <vector>

namespace earwright {

namespace {

/// A little more than the 50 ms within which the check takes an onset for the note's own, and less than the
/// shortest notes in use are apart (sixteenths at 240 bpm are 62 ms).
constexpr Seconds samePlace{0.06};

/// So far beside a written note the check looks for the sound that it should have been (ClaimFeatures.cpp),
/// and so far help for the note reaches.
constexpr Seconds besideNote{0.24};

/// One thing a check says about one instant.
struct Finding {
    Seconds time;
    /// Null for an unwritten sound. Points into the check.
    const CheckedNote* note = nullptr;

    bool is(Verdict verdict) const { return note && note->verdict == verdict; }
    bool isWanting() const { return !note || note->verdict == Verdict::Contradicted; }
};

Mistake mistakeOf(const Finding& finding) {
    if (!finding.note) return Mistake::Missing;
    if (finding.note->nothingBegins) return Mistake::Rhythm;
    if (!finding.note->suggestedMidi) return Mistake::Pitch;
    const int distance = std::abs(*finding.note->suggestedMidi - finding.note->midi);
    if (distance == 1) return Mistake::Semitone;
    return distance % 12 == 0 ? Mistake::Octave : Mistake::Pitch;
}

std::vector<Finding> findingsOf(const PhraseCheck& check) {
    std::vector<Finding> findings;
    for (const CheckedNote& note : check.notes)
        findings.push_back({note.range.begin, &note});
    for (const UnwrittenSound& sound : check.unwritten)
        findings.push_back({sound.range.begin, nullptr});
    return findings;
}

Seconds distance(Seconds a, Seconds b) {
    return Seconds(std::abs(a.value - b.value));
}

bool isOf(const EarPlace& place, const Finding& finding) {
    return place.note && finding.note && *place.note == finding.note->note;
}

/// Of a double stop each note keeps its own place.
bool isAnothers(const EarPlace& place, const Finding& finding, const PhraseCheck& check) {
    return place.note && finding.note && !isOf(place, finding) && check.note(*place.note);
}

/// For each place the finding that goes with it, if any: nearest pairs first, each used once.
std::vector<std::optional<std::size_t>>
paired(const std::vector<EarPlace>& places, const std::vector<Finding>& findings, const PhraseCheck& check) {
    struct Pair {
        /// The place is not known to be this note's; those that are come first.
        bool isGuess;
        Seconds apart;
        std::size_t place;
        std::size_t finding;
    };
    std::vector<Pair> pairs;
    for (std::size_t p = 0; p < places.size(); ++p)
        for (std::size_t f = 0; f < findings.size(); ++f) {
            const Seconds apart = distance(places[p].time, findings[f].time);
            if (apart <= samePlace && !isAnothers(places[p], findings[f], check))
                pairs.push_back({!isOf(places[p], findings[f]), apart, p, f});
        }
    std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
        return a.isGuess != b.isGuess ? b.isGuess : a.apart < b.apart;
    });
    std::vector<std::optional<std::size_t>> findingOf(places.size());
    std::vector<bool> used(findings.size(), false);
    for (const Pair& pair : pairs) {
        if (findingOf[pair.place] || used[pair.finding]) continue;
        findingOf[pair.place] = pair.finding;
        used[pair.finding] = true;
    }
    return findingOf;
}

void setWanting(EarPlace& place, const Finding& finding) {
    place.settled = false;
    place.unwritten = !finding.note;
    place.note = finding.note ? std::optional(finding.note->note) : std::nullopt;
    if (!place.mistake) place.mistake = mistakeOf(finding);
}

/// A place with a finding of its own. An unclear note says neither that it was found nor that it was not.
void judge(EarPlace& place, const Finding& finding) {
    if (finding.is(Verdict::Unclear)) return;
    if (finding.isWanting())
        setWanting(place, finding);
    else
        place.settled = true;
}

/// Whether a note stands at a place. Where a sound was listed, also one that is judged there: a swung or
/// late note is written where it is counted.
bool standsAt(const EarPlace& place, const CheckedNote& note) {
    return distance(note.range.begin, place.time) <= samePlace ||
           (place.unwritten && distance(note.begins(), place.time) <= samePlace);
}

/// A place that no finding goes with any more.
bool isSettledWithoutFinding(const EarPlace& place, const std::vector<Finding>& findings) {
    const auto isNear = [&](const Finding& finding) {
        return distance(finding.time, place.time) <= samePlace;
    };
    if (place.unwritten)
        return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
            return finding.is(Verdict::Supported) && standsAt(place, *finding.note);
        });
    return std::none_of(findings.begin(), findings.end(), [&](const Finding& finding) {
        return isNear(finding) && !finding.is(Verdict::Supported);
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

/// The note of the record that a checked note is: by its id, or the one of a note no longer there at its
/// place.
std::optional<std::size_t> knownAs(const CheckedNote& note, const std::vector<FoundNote>& found,
                                   const PhraseCheck& check) {
    for (std::size_t i = 0; i < found.size(); ++i)
        if (found[i].note == note.note) return i;
    for (std::size_t i = 0; i < found.size(); ++i)
        if (distance(found[i].time, note.range.begin) <= samePlace && !check.note(found[i].note)) return i;
    return std::nullopt;
}

/// From the written note before it in the phrase.
std::optional<int> intervalBefore(const CheckedNote& note, const PhraseCheck& check) {
    const CheckedNote* before = nullptr;
    for (const CheckedNote& other : check.notes)
        if (other.range.begin < note.range.begin && (!before || before->range.begin <= other.range.begin))
            before = &other;
    return before ? std::optional(note.midi - before->midi) : std::nullopt;
}

/// The note that was written in place of one that help was opened for: the nearest within the help's reach of
/// those that came after it and were not found unaided already. None while that note is there.
std::optional<NoteId> writtenInsteadOf(const EarPlace& place, const PhraseCheck& check,
                                       const std::vector<FoundNote>& found) {
    if (!place.note || place.help == HelpStep::None || check.note(*place.note)) return std::nullopt;
    const CheckedNote* nearest = nullptr;
    for (const CheckedNote& note : check.notes) {
        const Seconds apart = distance(note.range.begin, place.time);
        if (note.note < *place.note || apart > besideNote) continue;
        const bool isUnaided = std::any_of(found.begin(), found.end(), [&](const FoundNote& known) {
            return known.note == note.note && known.isUnaided();
        });
        if (isUnaided) continue;
        if (!nearest || apart < distance(nearest->range.begin, place.time)) nearest = &note;
    }
    return nearest ? std::optional(nearest->note) : std::nullopt;
}

/// A note found in this check, with what its places say: those where it was found wanting, however far it was
/// moved since or written anew, and those where it stands now, unless they are of another note that is there.
FoundNote foundNow(const CheckedNote& note, const PhraseRecord& entry, const PhraseCheck& check, Day today) {
    FoundNote found{note.range.begin, note.note, today, HelpStep::None, intervalBefore(note, check), {}};
    for (const EarPlace& place : entry.places) {
        // What is still to be written, such as a grace note close before this one, is nobody's yet.
        if (place.unwritten && !place.settled) continue;
        const bool isAnothers = place.note && place.note != note.note && check.note(*place.note);
        const bool isHere = standsAt(place, note);
        const bool isOwn =
            place.note == note.note || writtenInsteadOf(place, check, entry.found) == note.note;
        if (!isOwn && (isAnothers || !isHere)) continue;
        found.help = std::max(found.help, place.help);
        if (!found.mistake) found.mistake = place.mistake;
    }
    return found;
}

/// Supported notes are found, contradicted ones no longer are.
void keepFound(PhraseRecord& entry, const PhraseCheck& check, Day today) {
    for (const CheckedNote& note : check.notes) {
        const auto known = knownAs(note, entry.found, check);
        const auto at = known ? entry.found.begin() + static_cast<std::ptrdiff_t>(*known) : entry.found.end();
        if (note.verdict == Verdict::Contradicted && known) entry.found.erase(at);
        if (note.verdict != Verdict::Supported) continue;
        if (known) {
            at->time = note.range.begin;
            at->note = note.note;
            // The one before it may have been corrected.
            at->interval = intervalBefore(note, check);
        } else {
            entry.found.push_back(foundNow(note, entry, check, today));
        }
    }
    std::stable_sort(entry.found.begin(), entry.found.end(),
                     [](const FoundNote& a, const FoundNote& b) { return a.time < b.time; });
}

} // namespace

EarRecord afterCheck(const EarRecord& record, const PhraseCheck& check, const Range<Seconds>& checked,
                     Day today) {
    EarRecord kept = record;
    PhraseRecord& entry = entryOf(kept, check.phrase);
    std::vector<EarPlace>& places = entry.places;
    const std::vector<Finding> findings = findingsOf(check);
    const auto findingOf = paired(places, findings, check);
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
            setWanting(addPlace(places, {findings[f].time}), findings[f]);
    keepFound(entry, check, today);
    return kept;
}

EarRecord withHelp(const EarRecord& record, SpanId phrase, Seconds time, HelpStep step,
                   std::optional<NoteId> note) {
    EarRecord kept = record;
    std::vector<EarPlace>& places = entryOf(kept, phrase).places;
    EarPlace* nearest = nullptr;
    for (EarPlace& place : places) {
        const bool isAnothers = note && place.note && *place.note != *note;
        if (isAnothers || distance(place.time, time) > samePlace) continue;
        const bool isOwn = note && place.note == note;
        if (!nearest || isOwn || distance(place.time, time) < distance(nearest->time, time)) nearest = &place;
        if (isOwn) break;
    }
    if (!nearest) nearest = &addPlace(places, {time});
    if (nearest->settled) return kept;
    nearest->help = std::max(nearest->help, step);
    if (!nearest->note) nearest->note = note;
    return kept;
}

} // namespace earwright
