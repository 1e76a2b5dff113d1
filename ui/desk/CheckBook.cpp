#include "ui/desk/CheckBook.h"

#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// Corrected bar marks move notes in time; within the check's own tolerance for an onset nothing has changed.
constexpr double sameOnset = 0.05;

/// The other note of a trill is heard, so that a note whose trill is written anew was not judged as it is.
bool isUntouched(const CheckedNote& checked, const Study& before, const Study& after) {
    const Note* was = before.note(checked.note);
    const Note* is = after.note(checked.note);
    if (!was || !is || !after.beatMap.hasTempo()) return false;
    const double drift = std::abs(playedTime(after, is->onset).value - checked.range.begin.value);
    return was->pitch.midi == is->pitch.midi && was->onset == is->onset && was->length == is->length &&
           was->phrasing.trill == is->phrasing.trill && drift < sameOnset;
}

bool isWrittenNow(const UnwrittenSound& sound, const Study& before, const Study& after) {
    if (!after.beatMap.hasTempo()) return false;
    return std::any_of(after.notes.begin(), after.notes.end(), [&](const Note& note) {
        if (before.note(note.id)) return false;
        const Seconds onset = playedTime(after, note.onset);
        return onset > sound.range.begin - Seconds(sameOnset) && onset < sound.range.end;
    });
}

/// The written note before a place: what an unwritten sound is measured from.
std::optional<int> writtenBefore(const Study& study, Seconds time) {
    std::optional<int> midi;
    if (!study.beatMap.hasTempo()) return midi;
    for (const Note& note : study.notes)
        if (playedTime(study, note.onset) < time) midi = note.pitch.midi;
    return midi;
}

} // namespace

bool CheckBook::isSame(const CheckedPlace& a, const CheckedPlace& b) {
    if (a.note || b.note) return (a.note && b.isAbout(*a.note)) || (b.note && a.isAbout(*b.note));
    return std::abs(a.range.begin.value - b.range.begin.value) < sameOnset;
}

void CheckBook::keep(const PhraseCheck& check) {
    Entry& entry = phrases[check.phrase];
    entry.check = check;
    entry.judged.clear();
    for (const CheckedNote& note : check.notes)
        entry.judged.push_back(note.note);
    const auto now = placesOf(check);
    std::erase_if(entry.helped, [&](const HelpedPlace& helped) {
        return std::none_of(now.begin(), now.end(),
                            [&](const CheckedPlace& place) { return isSame(place, helped.place); });
    });
    entry.last.reset();
}

void CheckBook::follow(const Study& before, const Study& after) {
    if (before.notes == after.notes && before.beatMap == after.beatMap && before.spans == after.spans) return;
    std::erase_if(phrases, [&](const auto& item) {
        const Span* was = before.span(item.first);
        const Span* is = after.span(item.first);
        return !is || (was && was->range != is->range);
    });
    for (auto& [id, entry] : phrases) {
        std::erase_if(entry.check.notes,
                      [&](const CheckedNote& note) { return !isUntouched(note, before, after); });
        std::erase_if(entry.check.otherTrills,
                      [&](const OtherTrill& trill) { return !entry.check.note(trill.note); });
        std::erase_if(entry.check.unwritten,
                      [&](const UnwrittenSound& sound) { return isWrittenNow(sound, before, after); });
    }
}

void CheckBook::clear() {
    phrases.clear();
}

const PhraseCheck* CheckBook::of(SpanId phrase) const {
    const auto found = phrases.find(phrase);
    return found == phrases.end() ? nullptr : &found->second.check;
}

std::map<NoteId, Verdict> CheckBook::verdicts() const {
    std::map<NoteId, Verdict> all;
    for (const auto& [id, entry] : phrases)
        for (const CheckedNote& note : entry.check.notes)
            all[note.note] = note.verdict;
    return all;
}

std::optional<PhraseCheck> CheckBook::answersAround(std::optional<SpanId> phrase) const {
    if (phrases.empty()) return std::nullopt;
    const PhraseCheck* own = phrase ? of(*phrase) : nullptr;
    PhraseCheck all = own ? *own : PhraseCheck{};
    for (const auto& [id, entry] : phrases)
        for (const CheckedNote& note : entry.check.notes)
            if (!all.note(note.note)) {
                all.notes.push_back(note);
                if (const OtherTrill* trill = entry.check.otherTrill(note.note))
                    all.otherTrills.push_back(*trill);
            }
    return all;
}

std::set<NoteId> CheckBook::unjudged(const Entry& entry, const std::vector<Note>& written) {
    std::set<NoteId> ids;
    for (const Note& note : written)
        if (!entry.check.note(note.id)) ids.insert(note.id);
    return ids;
}

std::set<NoteId> CheckBook::unjudged(const Study& study) const {
    std::set<NoteId> ids;
    if (!study.beatMap.hasTempo()) return ids;
    std::vector<Range<Seconds>> asked;
    for (const auto& [id, entry] : phrases)
        if (const Span* phrase = study.span(id)) asked.push_back(phrase->range);
    if (asked.empty()) return ids;
    // A note in two phrases is judged by either.
    const std::map<NoteId, Verdict> judged = verdicts();
    for (const Note& note : study.notes) {
        if (judged.contains(note.id)) continue;
        const Seconds time = playedTime(study, note.onset);
        if (std::any_of(asked.begin(), asked.end(),
                        [&](const Range<Seconds>& range) { return range.contains(time); }))
            ids.insert(note.id);
    }
    return ids;
}

int CheckBook::changedSince(SpanId phrase, const Study& study) const {
    const auto found = phrases.find(phrase);
    const Span* span = study.span(phrase);
    if (found == phrases.end() || !span) return 0;
    const std::vector<Note> written = notesPlayedIn(study, span->range);
    const auto isGone = [&](NoteId id) {
        return std::none_of(written.begin(), written.end(), [id](const Note& note) { return note.id == id; });
    };
    const auto& judged = found->second.judged;
    return static_cast<int>(unjudged(found->second, written).size()) +
           static_cast<int>(std::count_if(judged.begin(), judged.end(), isGone));
}

HelpStep CheckBook::stepOf(const Entry& entry, const CheckedPlace& place) const {
    for (const HelpedPlace& helped : entry.helped)
        if (isSame(helped.place, place)) return helped.step;
    return HelpStep::None;
}

std::vector<HelpedPlace> CheckBook::places(SpanId phrase) const {
    std::vector<HelpedPlace> result;
    const auto found = phrases.find(phrase);
    if (found == phrases.end()) return result;
    for (const CheckedPlace& place : placesOf(found->second.check))
        result.push_back({place, stepOf(found->second, place)});
    return result;
}

std::optional<HelpedPlace> CheckBook::current(SpanId phrase) const {
    const auto found = phrases.find(phrase);
    if (found == phrases.end() || !found->second.last) return std::nullopt;
    for (const HelpedPlace& helped : places(phrase))
        if (isSame(helped.place, *found->second.last)) return helped;
    return std::nullopt;
}

std::optional<HelpedPlace> CheckBook::nextPlace(SpanId phrase, std::optional<NoteId> chosen,
                                                Seconds cursor) const {
    const auto all = places(phrase);
    const auto isOpen = [](const HelpedPlace& helped) { return helped.step != HelpStep::ShowIt; };
    for (const HelpedPlace& helped : all)
        if (chosen && helped.place.isAbout(*chosen) && isOpen(helped)) return helped;
    if (const auto last = current(phrase); last && isOpen(*last)) return last;
    for (const HelpedPlace& helped : all)
        if (isOpen(helped) && helped.place.range.begin >= cursor) return helped;
    for (const HelpedPlace& helped : all)
        if (isOpen(helped)) return helped;
    return shownAgain(phrase, chosen, cursor);
}

std::optional<HelpedPlace> CheckBook::shownAgain(SpanId phrase, std::optional<NoteId> chosen,
                                                 Seconds cursor) const {
    const auto all = places(phrase);
    if (all.empty()) return std::nullopt;
    const auto last = current(phrase);
    const auto isLast = [&](const HelpedPlace& helped) { return last && isSame(helped.place, last->place); };
    // Help for a sound within a note leaves the cursor on that note, which nobody chose by that: it may be
    // any note of a run, whose place is where its first one stands.
    const CheckedNote* note = chosen ? of(phrase)->note(*chosen) : nullptr;
    const bool isUnderLast =
        note && last && !last->place.note && note->range.contains(last->place.range.begin);
    for (const HelpedPlace& helped : all)
        if (chosen && helped.place.isAbout(*chosen) && !isLast(helped) && !isUnderLast) return helped;
    const auto now = std::ranges::find_if(all, isLast);
    const auto next = now != all.end() ? now + 1 : std::ranges::find_if(all, [&](const HelpedPlace& helped) {
        return helped.place.range.begin >= cursor;
    });
    return next == all.end() ? all.front() : *next;
}

HelpedPlace CheckBook::open(SpanId phrase, const CheckedPlace& place) {
    Entry& entry = phrases[phrase];
    entry.last = place;
    for (HelpedPlace& helped : entry.helped) {
        if (!isSame(helped.place, place)) continue;
        helped.place = place;
        if (helped.step != HelpStep::ShowIt)
            helped.step = static_cast<HelpStep>(static_cast<int>(helped.step) + 1);
        return helped;
    }
    entry.helped.push_back({place, HelpStep::SomethingOff});
    return entry.helped.back();
}

Hint hintOf(const HelpedPlace& helped, const Study& study) {
    return hintAt(helped.place, helped.step, writtenBefore(study, helped.place.range.begin));
}

std::vector<Hint> hintsOf(const CheckBook& book, SpanId phrase, const Study& study) {
    std::vector<Hint> hints;
    for (const HelpedPlace& helped : book.places(phrase))
        if (helped.step != HelpStep::None) hints.push_back(hintOf(helped, study));
    return hints;
}

} // namespace earwright::ui
