#include "ui/desk/CheckDesk.h"

#include "core/check/AsWritten.h"
#include "core/check/EarRecordKeeping.h"
#include "core/check/HelpReach.h"
#include "core/check/StudyCheck.h"
#include "core/check/StudyListening.h"
#include "core/study/PlayedTime.h"
#include "ui/desk/HeardPlace.h"
#include "ui/desk/PlaceEvidence.h"
#include "ui/desk/Today.h"
#include "ui/grid/ChordRows.h"
#include "ui/grid/HintText.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/ListenedText.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/PlaceText.h"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace earwright::ui {

namespace {

const auto unwritten = QStringLiteral("nothing written");
const auto checked = QStringLiteral("phrases checked");

QString inWholeSentence(const QString& words) {
    return words.left(1).toUpper() + words.mid(1) + QLatin1Char('.');
}

std::vector<Range<Seconds>> placesOfNotes(const Study& study) {
    std::vector<Range<Seconds>> places;
    for (const Note& note : study.notes)
        places.push_back(playedTime(study, note.range()));
    return places;
}

} // namespace

CheckDesk::CheckDesk(DeskSession& desk, RecordingListener& ears, NoteGridPanel& gridPanel,
                     ChorusSheetView& view, MessageBar& bar, QObject* parent)
    : QObject(parent),
      session(desk),
      listener(ears),
      panel(gridPanel),
      sheet(view),
      messages(bar),
      work(ears, bar, QStringLiteral("check"), tr("Listening to the recording, %1 %")) {
    connect(&session, &DeskSession::studyChanged, this, &CheckDesk::follow);
    connect(&session, &DeskSession::opened, this, [this] {
        checks.clear();
        furtherOn.clear();
        shown.reset();
        refresh();
        emit changed();
    });
    connect(&session, &DeskSession::recordingChanged, this, [this] { giveUp(); });
    connect(&work, &ListenedWork::ended, this, &CheckDesk::refresh);
    connect(&work, &ListenedWork::failed, this, &CheckDesk::refresh);
    connect(&work, &ListenedWork::calledOff, this, &CheckDesk::giveUp);
}

void CheckDesk::giveUp() {
    work.cancel();
    evidenceJob.cancel();
    refresh();
}

void CheckDesk::setPhrase(std::optional<SpanId> phrase) {
    if (phrase == shown) return;
    shown = phrase;
    evidenceJob.cancel();
    panel.grid()->setEvidence(std::nullopt);
    refresh();
}

void CheckDesk::check(const std::vector<SpanId>& phrases) {
    if (phrases.empty() || !session.recording()) return;
    std::vector<SpanId> written;
    for (const SpanId id : phrases)
        if (const Span* span = session.study().span(id); span && isWritten(session.study(), *span))
            written.push_back(id);
    messages.close(checked);
    if (written.empty())
        return messages.say(unwritten, MessageBar::Tone::Notice,
                            tr("Nothing is written in this phrase yet: write what you hear first, then press "
                               "C to check it."));
    messages.close(unwritten);
    work.whenListened([this, written] { start(written); });
    if (isBusy()) panel.ladder()->showChecking();
}

void CheckDesk::start(const std::vector<SpanId>& phrases) {
    // While the recording was listened to the line may have changed, or the phrases gone.
    std::vector<Span> spans;
    for (const SpanId id : phrases)
        if (const Span* span = session.study().span(id)) spans.push_back(*span);
    if (spans.empty()) return giveUp();
    const auto asked = session.shared();
    work.run<std::vector<PhraseCheck>>(
        [study = asked, spans, wish = wishOf(*asked, heardPart)](const RecordingEvidence& recording,
                                                                 const std::stop_token& stop,
                                                                 const BackgroundJob::Report& report) {
            return checkPhrases(*study, spans, recording, stop, report, wish);
        },
        [this, spans, asked](const std::vector<PhraseCheck>& outcomes) {
            take(spans, *asked, outcomes);
            if (outcomes.size() > 1) tellOf(outcomes);
        });
}

void CheckDesk::tellOf(const std::vector<PhraseCheck>& outcomes) {
    const auto count = [&](Verdict verdict) {
        return std::accumulate(
            outcomes.begin(), outcomes.end(), 0,
            [verdict](int sum, const PhraseCheck& outcome) { return sum + outcome.count(verdict); });
    };
    messages.say(
        checked, MessageBar::Tone::Notice,
        tr("%1 phrases checked: %2 supported · %3 unclear · %4 contradicted. Help goes by the phrase in "
           "the grid.")
            .arg(outcomes.size())
            .arg(count(Verdict::Supported))
            .arg(count(Verdict::Unclear))
            .arg(count(Verdict::Contradicted)));
}

void CheckDesk::take(const std::vector<Span>& asked, const Study& then,
                     const std::vector<PhraseCheck>& outcomes) {
    Study kept = session.study();
    for (std::size_t i = 0; i < asked.size(); ++i) {
        // What the ear finds beyond the reach of help counts as found by ear, so the record takes all of it.
        const ReachedCheck reached = withinReach(outcomes[i], then);
        checks.keep(reached.check);
        furtherOn[asked[i].id] = reached.furtherOn;
        kept.earRecord = afterCheck(kept.earRecord, outcomes[i], asked[i].range, today());
        if (shown == asked[i].id) panel.grid()->setEvidence(std::nullopt);
    }
    // Edits made while the check was worked out are not judged by it.
    checks.follow(then, session.study());
    session.adjust(std::move(kept));
    refresh();
    emit changed();
}

void CheckDesk::listenTo(const HeardPart& part) {
    if (part == heardPart) return;
    heardPart = part;
    const auto helped = shown ? checks.current(*shown) : std::nullopt;
    if (!helped || helped->step != HelpStep::ShowIt) return;
    refresh();
    showEvidence(*helped);
}

void CheckDesk::follow(const Study& before) {
    // Another instrument is listened for from now on: what was answered for the one before holds no more.
    if (before.players.line != session.study().players.line) {
        giveUp();
        checks.clear();
    }
    checks.follow(before, session.study());
    if (before.notes != session.study().notes) {
        messages.close(unwritten);
        messages.close(checked);
    }
    refresh();
    emit changed();
}

void CheckDesk::refresh() {
    sheet.setVerdicts(checks.verdicts());
    const PhraseCheck* check = shown ? checks.of(*shown) : nullptr;
    const std::optional<PhraseCheck> answers = checks.answersAround(shown);
    panel.grid()->setCheck(answers ? &*answers : nullptr, checks.unjudged(session.study()));
    panel.grid()->setHints(check ? hintsOf(checks, *shown, session.study()) : std::vector<Hint>{});
    if (isBusy()) return panel.ladder()->showChecking();
    if (!check) {
        panel.grid()->setEvidence(std::nullopt);
        const Span* span = shown ? session.study().span(*shown) : nullptr;
        return panel.ladder()->showUnchecked(span && session.recording() &&
                                             isWritten(session.study(), *span));
    }
    panel.ladder()->showCheck(*check, session.study().earRecord.foundByEar(), furtherOn[*shown],
                              checks.changedSince(*shown, session.study()));
    if (const auto helped = checks.current(*shown); helped && helped->step != HelpStep::None)
        panel.ladder()->showHint(hintOf(*helped, session.study()), sentenceOf(*helped),
                                 checks.places(*shown).size() > 1);
    else
        panel.grid()->setEvidence(std::nullopt);
}

void CheckDesk::help(SpanId phrase, Seconds cursor) {
    const auto next = checks.nextPlace(phrase, panel.grid()->selectedNote(), cursor);
    if (!next) return;
    const HelpedPlace helped = checks.open(phrase, next->place);
    Study kept = session.study();
    kept.earRecord =
        withHelp(kept.earRecord, phrase, helped.place.range.begin, helped.step, helped.place.note);
    // What is said of a run is said of each of its notes.
    for (const NoteId id : helped.place.notes)
        if (const CheckedNote* note = checks.of(phrase)->note(id))
            kept.earRecord = withHelp(kept.earRecord, phrase, note->range.begin, helped.step, id);
    session.adjust(std::move(kept));
    showHelp(helped);
    emit changed();
}

void CheckDesk::showHelp(const HelpedPlace& helped) {
    panel.grid()->setEvidence(std::nullopt);
    refresh();
    if (helped.place.note)
        panel.grid()->goToNote(*helped.place.note);
    else if (const auto beats = beatsOf(helped.place))
        panel.grid()->goTo(beats->begin);
    if (helped.step == HelpStep::ShowIt) showEvidence(helped);
}

void CheckDesk::showEvidence(const HelpedPlace& helped) {
    const auto beats = shownBeats(helped.place);
    if (!listener.evidence() || !beats) return;
    evidenceJob.start<Result<HeardStrengths>>(
        [known = listener.evidence(), range = shownTime(helped.place), study = session.shared(),
         part = heardPart](const std::stop_token& stop,
                           const BackgroundJob::Report&) -> Result<HeardStrengths> {
            const auto tuned = asWritten(*study, *known, stop);
            if (!tuned) return tuned.error();
            return pitchStrengths(*tuned, range, placesOfNotes(*study), wishOf(*study, part), stop);
        },
        [this, beats = *beats, asAsked = !heardPart.isEverything()](Result<HeardStrengths> heard) {
            if (!heard) return;
            panel.grid()->setEvidence(
                ColumnEvidence{beats, heard->pitches, listenedText(heard->listened, asAsked)});
            refresh();
        });
}

std::optional<Range<Beats>> CheckDesk::beatsOf(const CheckedPlace& place) const {
    const Study& study = session.study();
    if (!study.beatMap.hasTempo()) return std::nullopt;
    if (const Note* note = place.note ? study.note(*place.note) : nullptr) return note->range();
    return heardPlace(study, place.range);
}

Range<Seconds> CheckDesk::shownTime(const CheckedPlace& place) {
    if (!place.beginsAt) return place.range;
    return {*place.beginsAt, *place.beginsAt + place.range.length()};
}

std::optional<Range<Beats>> CheckDesk::shownBeats(const CheckedPlace& place) const {
    if (!place.beginsAt || !session.study().beatMap.hasTempo()) return beatsOf(place);
    return heardPlace(session.study(), shownTime(place));
}

HintNames CheckDesk::namesFor(const HelpedPlace& helped) const {
    HintNames names;
    const auto beats = beatsOf(helped.place);
    if (!beats) return names;
    if (helped.place.heardMidi) {
        const ChordRows chords(session.study(), *beats);
        const RowName row = rowName(chords.at(beats->begin), *helped.place.heardMidi);
        names.heard = row.name + row.octave;
        if (!row.degree.isEmpty()) names.heard = tr("%1 (%2)").arg(names.heard, row.degree);
    }
    if (helped.place.beginsAt) {
        const MeterMap meters = session.study().meters();
        const QString there = placeText(shownBeats(helped.place)->begin, meters);
        // The page has no place between its own and the next one for what is a little early or late.
        if (there != placeText(beats->begin, meters)) names.elsewhere = there;
    }
    return names;
}

QString CheckDesk::sentenceOf(const HelpedPlace& helped) const {
    const auto beats = beatsOf(helped.place);
    if (!beats) return hintText(hintOf(helped, session.study()), {});
    const QString sentence =
        hintText(hintOf(helped, session.study()), placeSentence(beats->begin, session.study().meters()),
                 namesFor(helped));
    if (helped.step != HelpStep::ShowIt) return sentence;
    QStringList more;
    if (const auto& shownEvidence = panel.grid()->evidence()) {
        const ChordRows chords(session.study(), *beats);
        // Of a trill the octave is that of its own note, which is not in question.
        if (!helped.place.trillHeard)
            more += openOctaveText(shownEvidence->pitches, chords.at(beats->begin));
        if (!shownEvidence->listened.isEmpty()) more += inWholeSentence(shownEvidence->listened);
    }
    if (helped.place.kind == PlaceKind::NothingThere && !helped.place.beginsAt)
        more += tr("The dots show what sounds meanwhile, which may be the band.");
    more.removeAll(QString());
    return more.isEmpty() ? sentence : sentence + QStringLiteral(". ") + more.join(QLatin1Char(' '));
}

} // namespace earwright::ui
