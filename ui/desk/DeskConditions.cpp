// Which of the things commands need are there now.
#include "core/study/LooseEndEdits.h"
#include "core/study/PlayedTime.h"
#include "ui/commands/KeySpelling.h"
#include "ui/desk/DeskWindow.h"
#include "ui/desk/EarSteps.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/sheet/ChorusSheetView.h"

#include <QKeyEvent>

#include <algorithm>

namespace earwright::ui {

namespace {

Conditions ofStudy(const Study& study) {
    const auto hasKind = [&](SpanKind kind) {
        return std::any_of(study.spans.begin(), study.spans.end(),
                           [kind](const Span& span) { return span.kind == kind; });
    };
    Conditions met = Condition::StudyOpen;
    met.setFlag(Condition::Loop, study.practice.loop.has_value());
    met.setFlag(Condition::Tempo, study.beatMap.hasTempo());
    met.setFlag(Condition::Phrases, hasKind(SpanKind::Phrase));
    met.setFlag(Condition::LooseEnds, nextOpenLooseEnd(study, Seconds(0)) != nullptr);
    return met;
}

} // namespace

Conditions DeskWindow::conditions() {
    if (!desk.isOpen()) return {};
    const Study& study = desk.study();
    const Seconds ear = ears.place();
    const auto phrase = phraseUnderCursor();
    Conditions met = ofStudy(study);
    met.setFlag(Condition::RecordingOpen, desk.recording() != nullptr);
    met.setFlag(Condition::Stereo, ears.isStereo());
    met.setFlag(Condition::OffPitch, tuning.canMove());
    met.setFlag(Condition::Proposal, beatFinder->hasProposal());
    met.setFlag(Condition::CanUndo, desk.canUndo());
    met.setFlag(Condition::CanRedo, desk.canRedo());
    met.setFlag(Condition::MarkHere, marks->markHere(ear).has_value());
    met.setFlag(Condition::Stretch, marks->stretch().has_value());
    met.setFlag(Condition::SpanHere, innermostSpan(study, ear) != nullptr);
    met.setFlag(Condition::PhraseHere, phrase.has_value());
    const auto stretch = stretchToCheck();
    const bool isWrittenHere = phrase || marks->writtenRunHere(placeInGrid());
    met.setFlag(Condition::WrittenHere, isWrittenHere);
    met.setFlag(Condition::WrittenToCheck, isWrittenHere || (stretch && isAnyPlayedIn(study, *stretch)));
    met.setFlag(Condition::Grid, gridPanel->grid()->hasColumns());
    met.setFlag(Condition::NoteSelected, gridPanel->grid()->selectedNote().has_value());
    met.setFlag(Condition::Places, phrase && checks->hasPlaces(*phrase));
    met.setFlag(Condition::ChordAnswer, chords->hasAnswerAt(ear));
    met.setFlag(Condition::NearLooseEnd, looseEndNear(study, ear) != nullptr);
    return met;
}

void DeskWindow::keyPressEvent(QKeyEvent* event) {
    QMainWindow::keyPressEvent(event);
    if (event->isAutoRepeat()) return;
    for (const QKeySequence& key : spellingsOf(*event))
        if (const QString why = commandSet->whyNot(key); !why.isEmpty()) return messageBar->notice(why);
}

} // namespace earwright::ui
