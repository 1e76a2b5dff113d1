#include "core/check/StudyCheck.h"

#include "core/check/AsWritten.h"
#include "core/check/MovedStep.h"
#include "core/check/OffBeat.h"
#include "core/check/OrnamentSounds.h"
#include "core/check/RecordingCheck.h"
#include "core/check/StudyPlaying.h"
#include "core/check/TrillCheck.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace earwright {

namespace {

constexpr Seconds surroundings{0.5};

/// The pair of which a note is the second one, if it was written evenly and nothing is said of how it swings.
std::optional<Range<Seconds>> evenPairOf(const Note& note, const std::vector<OffBeat>& offBeats,
                                         const Study& study) {
    if (!study.page.swingAt(note.onset).isEven()) return std::nullopt;
    const auto found = std::find_if(offBeats.begin(), offBeats.end(),
                                    [&](const OffBeat& offBeat) { return offBeat.place == note.onset; });
    const bool isEven = found != offBeats.end() && found->isEven();
    return isEven ? std::optional(study.beatMap.seconds(found->pair)) : std::nullopt;
}

std::vector<Claim> claimsOf(const Study& study, const std::vector<Note>& notes) {
    std::vector<Claim> claims;
    const std::vector<OffBeat> between = offBeats(study, notes);
    for (const Note& note : notes) {
        claims.push_back(
            {playedTime(study, note.range()), struckMidi(note), evenPairOf(note, between, study)});
        claims.back().isOrnamented = movesItsPitch(note.phrasing);
        claims.back().isGhosted = note.phrasing.ghosted;
    }
    return claims;
}

std::optional<Error> withoutBars(const Study& study) {
    if (study.beatMap.hasTempo()) return std::nullopt;
    return Error{ErrorKind::OutOfRange,
                 "The bars of this study are not marked yet; mark two bars so that its notes have places in "
                 "the recording.",
                 ""};
}

/// Whether a note that was not checked along, a hair outside of what was, is what sounds there.
bool isWrittenBeside(const UnwrittenSound& sound, const Study& study, const std::vector<Note>& checked) {
    constexpr Seconds sameNote{0.1};
    return std::any_of(study.notes.begin(), study.notes.end(), [&](const Note& note) {
        const Seconds apart = playedTime(study, note.onset) - sound.range.begin;
        return note.pitch.midi == sound.midi && apart < sameNote && apart > -sameNote &&
               std::none_of(checked.begin(), checked.end(),
                            [&](const Note& each) { return each.id == note.id; });
    });
}

/// Whether a sound is where a note that is early or late begins: one mistake, told at the note.
bool isOfAMovedNote(const UnwrittenSound& sound, const std::vector<CheckedNote>& checked) {
    constexpr Seconds sameOnset{0.030};
    return std::ranges::any_of(checked, [&](const CheckedNote& note) {
        return note.verdict != Verdict::Supported && note.beginsAt && note.midi == sound.midi &&
               std::abs((*note.beginsAt - sound.range.begin).value) < sameOnset.value;
    });
}

/// The answer for a note; what is heard instead is told of the pitch it is written with, as it is.
CheckedNote checkedNote(const Note& note, const Claim& claim, const ClaimAnswer& answer) {
    std::optional<int> suggested = answer.suggestedMidi;
    if (suggested) *suggested -= claim.midi - note.pitch.midi;
    return {note.id,      claim.range,           note.pitch.midi, answer.verdict,  answer.score,
            suggested,    answer.nothingBegins,  answer.beginsAt, answer.listened, answer.behind,
            answer.doubt, answer.suggestedScore, answer.together};
}

/// Sounds that no sign of a note accounts for.
std::vector<UnwrittenSound> withoutOrnaments(const std::vector<UnwrittenSound>& sounds,
                                             const std::vector<Note>& notes,
                                             const std::vector<CheckedNote>& checked) {
    std::vector<UnwrittenSound> left = sounds;
    for (std::size_t i = 0; i < notes.size(); ++i)
        std::erase_if(left, [&](const UnwrittenSound& sound) {
            return isOrnament(sound, notes[i], playedRange(checked[i]));
        });
    return left;
}

/// What may be the other note of a trill stands once in it: each time round is heard.
std::vector<UnwrittenSound> withoutRepeatedTurns(const std::vector<UnwrittenSound>& sounds,
                                                 const std::vector<Note>& notes,
                                                 const std::vector<CheckedNote>& checked) {
    std::vector<UnwrittenSound> left;
    std::set<std::pair<NoteId, int>> trills;
    for (const UnwrittenSound& sound : sounds) {
        bool listed = true;
        for (std::size_t i = 0; i < notes.size(); ++i)
            if (listed && isOtherTrill(sound, notes[i], playedRange(checked[i])))
                listed = trills.emplace(notes[i].id, sound.midi).second;
        if (listed) left.push_back(sound);
    }
    return left;
}

/// How the notes that may trill otherwise than they are written are played, as it is measured when that is
/// asked for: both say the same of a trill. The notes beside them are measured along, since they bound where
/// a note may begin.
Result<std::vector<NotePlaying>> trillsPlayed(const Study& study, const std::vector<Note>& notes,
                                              const std::vector<bool>& asked, const RecordingEvidence& tuned,
                                              const std::stop_token& stop, const ListeningWish& wish) {
    const std::vector<PhrasingClaim> all = phrasingClaims(study, notes);
    std::vector<std::size_t> members;
    std::vector<PhrasingClaim> claims;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (!asked[i] && !(i > 0 && asked[i - 1]) && !(i + 1 < notes.size() && asked[i + 1])) continue;
        members.push_back(i);
        claims.push_back(all[i]);
    }
    const auto measured = measurePhrasing(tuned, claims, stop, {}, wish.part);
    if (!measured) return measured.error();
    std::vector<NotePlaying> playing(notes.size());
    for (std::size_t k = 0; k < members.size(); ++k)
        playing[members[k]] = (*measured)[k];
    return playing;
}

Result<TrillsHeard> withTrillsTold(const std::vector<UnwrittenSound>& sounds, const Study& study,
                                   const std::vector<Note>& notes, std::vector<CheckedNote> checked,
                                   const RecordingEvidence& tuned, const std::stop_token& stop,
                                   const ListeningWish& wish) {
    std::vector<bool> asked;
    for (std::size_t i = 0; i < notes.size(); ++i)
        asked.push_back(mayTrillElsewhere(notes[i], checked[i]) || mayBeATrill(notes[i], checked[i], sounds));
    if (std::ranges::find(asked, true) == asked.end()) return TrillsHeard{std::move(checked), {}, sounds};
    const auto playing = trillsPlayed(study, notes, asked, tuned, stop, wish);
    if (!playing) return playing.error();
    return trillsHeard(sounds, notes, std::move(checked), *playing);
}

/// What was found of notes that were checked together, note by note.
Result<PhraseCheck> told(const NoteCheck& found, const Study& study, const std::vector<Note>& notes,
                         const std::vector<Claim>& claims, const RecordingEvidence& tuned,
                         const std::stop_token& stop, const ListeningWish& wish) {
    std::vector<CheckedNote> checked;
    for (std::size_t i = 0; i < notes.size(); ++i)
        checked.push_back(
            withSignsHeard(checkedNote(notes[i], claims[i], found.answers[i]), notes[i], found.unwritten));
    tellSteps(checked, study);
    const std::vector<UnwrittenSound> sounds = withoutOrnaments(found.unwritten, notes, checked);
    auto heard = withTrillsTold(sounds, study, notes, std::move(checked), tuned, stop, wish);
    if (!heard) return heard.error();
    PhraseCheck check;
    check.unwritten = withoutRepeatedTurns(heard->others, notes, heard->notes);
    std::erase_if(check.unwritten, [&](const UnwrittenSound& sound) {
        return isWrittenBeside(sound, study, notes) || isOfAMovedNote(sound, heard->notes);
    });
    check.notes = std::move(heard->notes);
    check.otherTrills = std::move(heard->trills);
    check.unwrittenSwing = found.swing;
    return check;
}

/// Checks one phrase. `tuned`: the recording as asWritten() reads it.
Result<PhraseCheck> checkedPhrase(const Study& study, const Span& phrase, const RecordingEvidence& tuned,
                                  std::stop_token stop, const Progress& progress, const ListeningWish& wish) {
    const std::vector<Note> notes = notesPlayedIn(study, phrase.range);
    const std::vector<Claim> claims = claimsOf(study, notes);
    const auto evidence = tuned.passage({phrase.range.begin - surroundings, phrase.range.end + surroundings},
                                        wish.part, stop, progress);
    if (!evidence) return evidence.error();
    auto check =
        told(checkNotes(evidence->within(wish.line), claims), study, notes, claims, tuned, stop, wish);
    if (!check) return check.error();
    check->phrase = phrase.id;
    check->listenedAsAsked = !wish.part.isEverything();
    std::erase_if(check->unwritten,
                  [&](const UnwrittenSound& sound) { return !phrase.range.contains(sound.range.begin); });
    return check;
}

/// Checks the notes that are in no phrase; lists no sound within one.
Result<PhraseCheck> checkedRest(const Study& study, const std::set<NoteId>& done,
                                const RecordingEvidence& tuned, std::stop_token stop,
                                const ListeningWish& wish) {
    std::vector<Note> rest;
    std::copy_if(study.notes.begin(), study.notes.end(), std::back_inserter(rest),
                 [&](const Note& note) { return !done.contains(note.id); });
    if (rest.empty()) return PhraseCheck{};
    const std::vector<Claim> claims = claimsOf(study, rest);
    const auto found = checkRecording(tuned, claims, stop, {}, wish);
    if (!found) return found.error();
    auto check = told(*found, study, rest, claims, tuned, stop, wish);
    if (!check) return check.error();
    std::erase_if(check->unwritten, [&](const UnwrittenSound& sound) {
        return study.spanAt(SpanKind::Phrase, sound.range.begin) != nullptr;
    });
    return check;
}

void sortAsInStudy(PhraseCheck& check, const Study& study) {
    std::map<NoteId, std::size_t> order;
    for (std::size_t i = 0; i < study.notes.size(); ++i)
        order[study.notes[i].id] = i;
    std::sort(check.notes.begin(), check.notes.end(),
              [&](const CheckedNote& a, const CheckedNote& b) { return order[a.note] < order[b.note]; });
    std::stable_sort(
        check.unwritten.begin(), check.unwritten.end(),
        [](const UnwrittenSound& a, const UnwrittenSound& b) { return a.range.begin < b.range.begin; });
    std::stable_sort(check.otherTrills.begin(), check.otherTrills.end(),
                     [](const OtherTrill& a, const OtherTrill& b) { return a.range.begin < b.range.begin; });
}

} // namespace

bool isWritten(const Study& study, const Span& phrase) {
    return isAnyPlayedIn(study, phrase.range);
}

Result<PhraseCheck> checkPhrase(const Study& study, const Span& phrase, const RecordingEvidence& recording,
                                std::stop_token stop, const Progress& progress, const ListeningWish& wish) {
    auto checked = checkPhrases(study, {phrase}, recording, stop, progress, wish);
    if (!checked) return checked.error();
    return std::move(checked->front());
}

Result<std::vector<PhraseCheck>> checkPhrases(const Study& study, const std::vector<Span>& phrases,
                                              const RecordingEvidence& recording, std::stop_token stop,
                                              const Progress& progress, const ListeningWish& wish) {
    if (const auto error = withoutBars(study)) return *error;
    const auto tuned = asWritten(study, recording, stop);
    if (!tuned) return tuned.error();
    std::vector<PhraseCheck> all;
    for (const Span& phrase : phrases) {
        const auto share = [&](double done) {
            if (progress)
                progress((static_cast<double>(all.size()) + done) / static_cast<double>(phrases.size()));
        };
        auto checked = checkedPhrase(study, phrase, *tuned, stop, share, wish);
        if (!checked) return checked.error();
        all.push_back(*std::move(checked));
    }
    return all;
}

Result<PhraseCheck> checkStudy(const Study& study, const RecordingEvidence& recording, std::stop_token stop,
                               const ListeningWish& wish) {
    if (const auto error = withoutBars(study)) return *error;
    const auto tuned = asWritten(study, recording, stop);
    if (!tuned) return tuned.error();
    PhraseCheck whole;
    std::set<NoteId> done;
    const auto take = [&](const PhraseCheck& part) {
        for (const CheckedNote& note : part.notes)
            if (done.insert(note.note).second) {
                whole.notes.push_back(note);
                if (const OtherTrill* trill = part.otherTrill(note.note)) whole.otherTrills.push_back(*trill);
            }
        whole.unwritten.insert(whole.unwritten.end(), part.unwritten.begin(), part.unwritten.end());
    };
    for (const Span& phrase : study.spansOf(SpanKind::Phrase)) {
        if (!isWritten(study, phrase)) continue;
        const auto part = checkedPhrase(study, phrase, *tuned, stop, {}, wish);
        if (!part) return part.error();
        take(*part);
    }
    const auto rest = checkedRest(study, done, *tuned, stop, wish);
    if (!rest) return rest.error();
    take(*rest);
    sortAsInStudy(whole, study);
    return whole;
}

} // namespace earwright
