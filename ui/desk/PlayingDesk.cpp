#include "ui/desk/PlayingDesk.h"

#include "core/check/BehindSwing.h"
#include "core/check/PhrasingMark.h"
#include "core/study/PlayedTime.h"
#include "ui/desk/CheckBook.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PlayingLine.h"
#include "ui/grid/PlayingText.h"
#include "ui/theme/VerdictWord.h"

#include <QStringList>

#include <algorithm>

namespace earwright::ui {

namespace {

/// Of a note that is contradicted the measure is another sound's, and would tell signs that are none.
bool isHeard(const Note& note, const MeasuredNote& found, const std::map<NoteId, Verdict>& verdicts) {
    const auto verdict = verdicts.find(note.id);
    const bool isContradicted = verdict != verdicts.end() && verdict->second == Verdict::Contradicted;
    return !isContradicted && isAtItsPitch(note.phrasing, found.playing);
}

} // namespace

PlayingDesk::PlayingDesk(DeskSession& desk, RecordingListener& listener, const CheckBook& checkBook,
                         NoteGrid& noteGrid, PlayingLine& playingLine, MessageBar& bar, QObject* parent)
    : QObject(parent),
      session(desk),
      book(checkBook),
      grid(noteGrid),
      line(playingLine),
      messages(bar),
      work(listener, bar, QStringLiteral("playing"), tr("Listening to how the notes are played, %1 %")) {
    connect(&session, &DeskSession::studyChanged, this, [this] { refresh(); });
    connect(&session, &DeskSession::opened, this, [this] { forget(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { forget(); });
}

void PlayingDesk::setKeys(KeyOf keys) {
    keyOf = std::move(keys);
    refresh();
}

void PlayingDesk::setPhrase(std::optional<SpanId> phrase) {
    if (phrase == shown) return;
    shown = phrase;
    refresh();
}

void PlayingDesk::tellOrPutAway(SpanId phrase) {
    const Span* span = session.study().span(phrase);
    if (!span || !session.recording()) return;
    std::vector<Note> notes = notesPlayedIn(session.study(), span->range);
    if (notes.empty())
        return messages.notice(
            tr("Nothing is written in this phrase yet: how it is played is measured at the notes "
               "you write."));
    const auto asTold = told.find(phrase);
    if (asTold != told.end() && asTold->second == heardPart && isAllMeasured(notes)) {
        told.erase(asTold);
        return refresh();
    }
    const auto asked = session.shared();
    work.start<MeasuredNotes>(
        [asked, notes = std::move(notes), part = heardPart](const RecordingEvidence& recording,
                                                            const std::stop_token& stop,
                                                            const BackgroundJob::Report& report) {
            return measureNotes(*asked, notes, recording, stop, report, part);
        },
        [this, phrase, part = heardPart](const MeasuredNotes& found) {
            for (const auto& [id, note] : found)
                known[id] = note;
            told[phrase] = part;
            refresh();
        });
}

const MeasuredNote* PlayingDesk::measured(const Note& note) const {
    const auto found = known.find(note.id);
    return found != known.end() && holdsFor(found->second, session.study(), note) ? &found->second : nullptr;
}

bool PlayingDesk::isAllMeasured(const std::vector<Note>& notes) const {
    return std::all_of(notes.begin(), notes.end(),
                       [this](const Note& note) { return measured(note) != nullptr; });
}

void PlayingDesk::refresh() {
    const Span* span = shown && told.contains(*shown) ? session.study().span(*shown) : nullptr;
    if (!span) {
        grid.setMarkAnswers({});
        return line.show({});
    }
    const std::vector<Note> notes = notesPlayedIn(session.study(), span->range);
    std::map<NoteId, std::vector<MarkAnswer>> answers;
    const auto verdicts = book.verdicts();
    for (const Note& note : notes)
        if (const MeasuredNote* found = measured(note); found && isHeard(note, *found, verdicts))
            answers[note.id] = judgePhrasing(note.phrasing, found->playing).written;
    grid.setMarkAnswers(std::move(answers));
    line.show(sentence(notes));
}

QString PlayingDesk::sentence(const std::vector<Note>& notes) const {
    const auto selected = grid.selectedNote();
    const auto note =
        std::find_if(notes.begin(), notes.end(), [&](const Note& each) { return each.id == selected; });
    if (note == notes.end()) return sumUp(notes);
    const MeasuredNote* found = measured(*note);
    if (!found) return outOfDate(*note);
    const QString text = isHeard(*note, *found, book.verdicts())
                             ? playingText(note->phrasing, found->playing, behindSwing(notes, *note),
                                           found->claim.range.length())
                             : notHeard(*note);
    const bool isOtherRhythm = found->three && isWrittenSo(*found->three, session.study(), notes, *note);
    if (!isOtherRhythm) return text;
    const QString spacing = spacingText(found->three->heard);
    return text.endsWith(QLatin1Char('.')) ? tr("%1 But %2.").arg(text, spacing)
                                           : tr("%1 · %2").arg(text, spacing);
}

QString PlayingDesk::outOfDate(const Note& note) const {
    const Study& study = session.study();
    const QString asking = howTo(CommandId::HowPlayed, keyOf);
    const auto found = known.find(note.id);
    if (found == known.end())
        return tr("This note was not measured yet: %1 to have it measured.").arg(asking);
    const WrittenBetween& then = found->second.between;
    const WrittenBetween now = writtenBetween(study, note);
    const bool isItself = !isAsMeasured(found->second, study, note);
    const QString which = isItself                    ? tr("This note was changed since it was measured")
                          : then.before == now.before ? tr("The note after this one was changed since")
                          : then.after == now.after   ? tr("The note before this one was changed since")
                                                      : tr("The notes beside this one were changed since");
    return tr("%1: what was measured holds no more; %2 to have it measured.").arg(which, asking);
}

QString PlayingDesk::notHeard(const Note& note) const {
    const QString checking = howTo(CommandId::CheckPhrase, keyOf);
    const auto verdicts = book.verdicts();
    const auto verdict = verdicts.find(note.id);
    const bool isJudged = verdict != verdicts.end();
    // Nothing speaks against it: another note may sound before its written end.
    if (isJudged && verdict->second == Verdict::Supported)
        return tr("The check supports this note, but its pitch does not sound for as long as it is written.");
    if (!isJudged && book.unjudged(session.study()).contains(note.id))
        return tr("This note was changed or written since the check: %1 to check it.").arg(checking);
    const QString why =
        !isJudged ? tr("%1 to check the phrase first").arg(checking)
        : isFullyHelped(note)
            ? tr("the check says %1, and all its help is shown").arg(verdictWord(verdict->second))
            : tr("the check says %1; %2 for a hint")
                  .arg(verdictWord(verdict->second), howTo(CommandId::NextHelp, keyOf));
    return tr("Not heard as it is written, in pitch or in length: %1.").arg(why);
}

bool PlayingDesk::isFullyHelped(const Note& note) const {
    if (!shown) return false;
    const std::vector<HelpedPlace> places = book.places(*shown);
    return std::any_of(places.begin(), places.end(), [&](const HelpedPlace& helped) {
        return helped.place.isAbout(note.id) && helped.step == HelpStep::ShowIt;
    });
}

std::optional<Seconds> PlayingDesk::behindSwing(const std::vector<Note>& notes, const Note& note) const {
    const MeasuredNote* found = measured(note);
    if (!found) return std::nullopt;
    PlayedNotes played;
    for (const Note& each : notes)
        if (const MeasuredNote* one = measured(each); one && one->playing.begins)
            played[each.id] = playedNote(one->claim, one->playing);
    const auto swung = swungBehind(session.study(), notes, note, played);
    return swung ? std::optional(found->playing.behind - *swung) : std::nullopt;
}

QString PlayingDesk::sumUp(const std::vector<Note>& notes) const {
    const auto verdicts = book.verdicts();
    int asked = 0, heard = 0, supported = 0, unclear = 0, contradicted = 0, unwritten = 0;
    for (const Note& note : notes) {
        const MeasuredNote* found = measured(note);
        asked += found ? 1 : 0;
        if (!found || !isHeard(note, *found, verdicts)) continue;
        heard += found->playing.begins ? 1 : 0;
        const PhrasingAnswer answer = judgePhrasing(note.phrasing, found->playing);
        unwritten += answer.unwritten.empty() ? 0 : 1;
        for (const MarkAnswer& mark : answer.written)
            ++(mark.verdict == Verdict::Supported ? supported
               : mark.verdict == Verdict::Unclear ? unclear
                                                  : contradicted);
    }
    const QString notesText =
        tr("Select a note to read how it is played: %1 of %2 are heard to begin.").arg(heard).arg(asked);
    const QString signs = tr("Written signs: %1 supported · %2 unclear · %3 contradicted.")
                              .arg(supported)
                              .arg(unclear)
                              .arg(contradicted);
    const QString more = tr("Notes with a sign heard and not written: %1.").arg(unwritten);
    QStringList all{notesText};
    if (supported + unclear + contradicted > 0) all += signs;
    if (unwritten > 0) all += more;
    return all.join(QLatin1Char(' '));
}

void PlayingDesk::forget() {
    work.cancel();
    known.clear();
    told.clear();
    refresh();
}

} // namespace earwright::ui
