// What joins session, views and player at the desk: each asks by signal, the desk lets the others know.
#include "core/study/PracticeEdits.h"
#include "ui/desk/DeskWindow.h"
#include "ui/desk/ExportDesk.h"
#include "ui/desk/StringsDesk.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/LooseEndList.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/page/PageView.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/sheet/PillMenu.h"
#include "ui/strip/FormStripView.h"
#include "ui/transport/BandRow.h"
#include "ui/transport/ClickRow.h"
#include "ui/transport/TransportBar.h"
#include "ui/transport/TuningLine.h"

#include <QApplication>

namespace earwright::ui {

void DeskWindow::connectSession() {
    connect(&desk, &DeskSession::opened, this, [this](const Opened& what) {
        cursor.reset();
        messageBar->close(adviceSubject());
        showStudy();
        turnPage();
        goTo(desk.study().practice.loop ? desk.study().practice.loop->begin : Seconds(0));
        if (what.recording && !desk.study().beatMap.hasTempo()) adviseOnMarking();
    });
    connect(&desk, &DeskSession::studyChanged, this, [this](const Study& before) {
        showStudy();
        if (before.beatMap != desk.study().beatMap && desk.study().beatMap.hasTempo())
            messageBar->close(adviceSubject());
    });
    connect(&desk, &DeskSession::fileChanged, this, [this] {
        showTitle();
        offerCommands();
    });
    connect(&desk, &DeskSession::recordingChanged, this, &DeskWindow::showRecording);
    connect(&desk, &DeskSession::overviewProgressed, this, [this](std::optional<double> share) {
        formStrip->setDrawn(share);
        chorusSheet->levelsChanged();
        if (!share) listener.listen();
    });
    connect(&listener, &RecordingListener::onsetsFound, chorusSheet, &ChorusSheetView::setOnsets);
}

void DeskWindow::connectStrip() {
    connect(formStrip, &FormStripView::seekRequested, this, &DeskWindow::goTo);
    connect(formStrip, &FormStripView::loopRequested, this,
            [this](const Range<Seconds>& loop) { ears.loopOver(loop); });
    connect(formStrip, &FormStripView::drawingCancelled, &desk, &DeskSession::cancelOverview);
    connect(marks, &MarkingDesk::placeChosen, this, &DeskWindow::goTo);
}

void DeskWindow::tellKeys() {
    gridPanel->setKeys(keyOf());
    playingDesk->setKeys(keyOf());
    chorusSheet->setKeys(keyOf());
    entryDesk->setKeys(keyOf());
}

void DeskWindow::connectPanel() {
    NoteGrid* grid = gridPanel->grid();
    tellKeys();
    connect(&bindings, &KeyBindings::keysChanged, this, &DeskWindow::tellKeys);
    connect(grid, &NoteGrid::edited, this,
            [this](const Study& study, const QString& what) { desk.apply(what, study); });
    connect(grid, &NoteGrid::audition, this,
            [this](int midi, double loudness) { desk.engine().audition(midi, loudness); });
    connect(grid, &NoteGrid::sliceRequested, &ears, &ListeningDesk::hearSlice);
    connect(grid, &NoteGrid::placeChosen, &ears, &ListeningDesk::hearFrom);
    connect(grid, &NoteGrid::cursorMoved, pageView, &PageView::showPlace);
    connect(grid, &NoteGrid::selectionChanged, this, [this, grid] {
        const std::vector<NoteId> notes = grid->selectedNotes();
        pageView->setSelected(notes, grid->selectedNote());
        chorusSheet->setSelected({notes.begin(), notes.end()});
        playingDesk->refresh();
        offerCommands();
    });
    connect(pageView, &PageView::noteChosen, grid, &NoteGrid::goToNote);
    connect(pageView, &PageView::pinWanted, stringsDesk, &StringsDesk::pin);
    connect(pageView, &PageView::stringsWanted, stringsDesk, &StringsDesk::askForTuning);
    connect(gridPanel->looseEnds(), &LooseEndList::edited, this,
            [this](const Study& study, const QString& what) { desk.apply(what, study); });
    connect(gridPanel->looseEnds(), &LooseEndList::placeChosen, this, &DeskWindow::goTo);
    connect(gridPanel->ladder(), &LadderPanel::checkRequested, commandSet->action(CommandId::CheckPhrase),
            &QAction::trigger);
    connect(gridPanel->ladder(), &LadderPanel::helpRequested, commandSet->action(CommandId::NextHelp),
            &QAction::trigger);
    connect(beatFinder, &BeatFinding::changed, this, &DeskWindow::offerCommands);
    connect(checks, &CheckDesk::changed, this, [this] {
        playingDesk->refresh();
        offerCommands();
    });
    connect(chords, &ChordDesk::changed, this, &DeskWindow::offerCommands);
    connect(qApp, &QApplication::focusChanged, this, [this, grid](QWidget*, QWidget* now) {
        if (now && (now == grid || grid->isAncestorOf(now))) cursor.hold();
    });
}

void DeskWindow::connectTransport() {
    connect(transportBar, &TransportBar::playPauseRequested, &ears, &ListeningDesk::playOrPause);
    connect(transportBar, &TransportBar::hearingChosen, this, &DeskWindow::chooseHearing);
    connect(transportBar, &TransportBar::focusChosen, &ears, &ListeningDesk::focusOn);
    connect(transportBar, &TransportBar::playingChosen, this, [this](const Playing& playing) {
        if (!desk.isOpen()) return;
        desk.adjust(
            setTransposition(setSpeed(desk.study(), playing.speed), playing.semitones, playing.cents));
    });
    connect(transportBar, &TransportBar::levelChosen, &ears, &ListeningDesk::setLevel);
    connect(transportBar, &TransportBar::balanceChosen, &ears, &ListeningDesk::setBalance);
    connect(transportBar, &TransportBar::asPlayedChosen, playedAs, &AsPlayedDesk::switchTo);
    connect(playedAs, &AsPlayedDesk::changed, this, [this] { transportBar->setAsPlayed(playedAs->isOn()); });
    connect(transportBar, &TransportBar::inTuneChosen, &tuning, &TuningDesk::playInTune);
    connect(transportBar->tuningLine(), &TuningLine::referenceChosen, &tuning, &TuningDesk::choose);
    connect(&tuning, &TuningDesk::changed, this, &DeskWindow::showTuning);
    transportBar->setHasRecording(false);
    transportBar->setLevel(ears.level());
    showTuning();
    transportBar->setHearing(ears.hearing());
}

void DeskWindow::listenWhereTheUserDoes() {
    const HeardPart part{ears.focus(), band.heard()};
    checks->listenTo(part);
    feels->listenTo(part);
    playingDesk->listenTo(part);
    playedAs->listenTo(part);
    exportDesk->listenTo(part);
}

void DeskWindow::connectListening() {
    connect(&ears, &ListeningDesk::hearingChanged, this, [this] {
        transportBar->setHearing(ears.hearing());
        showTrade();
    });
    connect(&ears, &ListeningDesk::focusChanged, this, [this] {
        transportBar->showFocus(ears.focus());
        transportBar->setIsStereo(ears.isStereo());
        listenWhereTheUserDoes();
    });
    connect(&ears, &ListeningDesk::levelChanged, this, [this] {
        transportBar->setLevel(ears.level());
        transportBar->setBalance(ears.balance());
    });
    connect(&ears, &ListeningDesk::loopMakingChanged, this, &DeskWindow::showLoopMaking);
    connect(&manner, &LoopMannerDesk::changed, this, &DeskWindow::showLoopManner);
    connect(chorusSheet, &ChorusSheetView::climbChosen, &manner, &LoopMannerDesk::chooseClimb);
    connect(chorusSheet, &ChorusSheetView::climbStepBackChosen, &manner, &LoopMannerDesk::stepBack);
    connect(chorusSheet, &ChorusSheetView::gapChosen, &manner, &LoopMannerDesk::chooseGap);
    connect(chorusSheet, &ChorusSheetView::yoursSpeedChosen, this, [this](int percent) {
        manner.chooseYoursSpeed(percent == asTheRecord ? std::nullopt : std::optional(percent / 100.0));
    });
}

void DeskWindow::connectBeatAndBand() {
    ClickRow* clicks = transportBar->clickRow();
    connect(clicks, &ClickRow::clicksChosen, &beat, &BeatDesk::click);
    connect(clicks, &ClickRow::levelChosen, &beat, &BeatDesk::setClickLevel);
    connect(clicks, &ClickRow::countInChosen, &beat, &BeatDesk::setCountIn);
    connect(&beat, &BeatDesk::changed, this,
            [this, clicks] { clicks->show(beat.isClicking(), beat.clickLevel(), beat.countIn()); });
    BandRow* row = transportBar->bandRow();
    connect(row, &BandRow::useChosen, &band, &BandDesk::choose);
    connect(row, &BandRow::edgesChosen, &band, &BandDesk::setEdges);
    connect(&band, &BandDesk::changed, this, [this, row] {
        row->show(band.use(), band.edges());
        listenWhereTheUserDoes();
    });
}

} // namespace earwright::ui
