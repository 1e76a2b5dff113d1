#include "ui/desk/DeskCommands.h"

#include "core/study/PlayerEdits.h"
#include "ui/commands/KeysDialog.h"
#include "ui/desk/AboutText.h"
#include "ui/desk/DeskWindow.h"
#include "ui/desk/EarRecordDialog.h"
#include "ui/desk/ExportDesk.h"
#include "ui/desk/PlayersDialog.h"
#include "ui/desk/SheetDesk.h"
#include "ui/desk/StringsDesk.h"
#include "ui/desk/StudyDialog.h"
#include "ui/grid/MarkWords.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/page/MusicFont.h"
#include "ui/page/PageSteps.h"
#include "ui/page/PageView.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/takes/TakePanel.h"

#include <QMessageBox>

#include <functional>

namespace earwright::ui {

namespace {

using enum CommandId;

constexpr double levelStep = 0.05;

void bindStudy(CommandSet& commands, DeskWindow& window) {
    KeepingDesk& keeping = window.keeping();
    commands.bind(Open, [&] { keeping.askWhatToOpen(); });
    commands.bind(Save, [&] { keeping.save(); });
    commands.bind(SaveAs, [&] { keeping.askWhereToSave(); });
    commands.bind(WriteSheet, [&] { window.sheets().ask(); });
    commands.bind(WriteForOthers, [&] { window.exports().askWhatToWrite(); });
    commands.bind(FindRecording, [&] { keeping.askForRecording(); });
    commands.bind(NameStudy, [&] { keeping.askForTitle(); });
    commands.bind(Quit, [&] { window.close(); });
    QObject::connect(&keeping, &KeepingDesk::closeAgreed, &window, &QWidget::close);
    commands.bind(Undo, [&] { window.session().undo(); });
    commands.bind(Redo, [&] { window.session().redo(); });
    commands.bind(LetGo, [&] { window.letGo(); });
    commands.bind(FewerBars, [&] { window.sheet().stepBarsPerLine(-1); });
    commands.bind(MoreBars, [&] { window.sheet().stepBarsPerLine(1); });
    commands.bind(SwitchAppearance, [&] { window.switchAppearance(); });
}

void bindPlaying(CommandSet& commands, DeskWindow& window) {
    ListeningDesk& ears = window.listening();
    const auto step = [&](void (ListeningDesk::*move)(int), int by) {
        return [&ears, &window, move, by] {
            (ears.*move)(by);
            window.goTo(ears.place());
        };
    };
    commands.bind(PlayPause, [&] { ears.playOrPause(); });
    commands.bind(Earlier, step(&ListeningDesk::stepBeats, -1));
    commands.bind(Later, step(&ListeningDesk::stepBeats, 1));
    commands.bind(BarEarlier, step(&ListeningDesk::stepBars, -1));
    commands.bind(BarLater, step(&ListeningDesk::stepBars, 1));
    commands.bind(ToStart, [&] {
        const auto& loop = window.session().study().practice.loop;
        window.goTo(loop ? loop->begin : Seconds(0));
    });
    commands.bind(NextHearing, [&] { window.chooseHearing(ears.neighbour(1)); });
    commands.bind(PreviousHearing, [&] { window.chooseHearing(ears.neighbour(-1)); });
    commands.bind(NextFocus, [&] { ears.focusOn(ears.focusNeighbour(1)); });
    commands.bind(PreviousFocus, [&] { ears.focusOn(ears.focusNeighbour(-1)); });
    AsPlayedDesk& playedAs = window.asPlayed();
    commands.bind(AsPlayed, [&] { playedAs.switchTo(!playedAs.isOn()); });
    commands.bind(YoursSofter, [&] { ears.setBalance(ears.balance() - 1); });
    commands.bind(YoursLouder, [&] { ears.setBalance(ears.balance() + 1); });
    TuningDesk& tuning = window.tuningDesk();
    commands.bind(PlayInTune, [&] { tuning.playInTune(!tuning.isInTune()); });
    commands.bind(Softer, [&] { ears.setLevel(ears.level() - levelStep); });
    commands.bind(Louder, [&] { ears.setLevel(ears.level() + levelStep); });
    commands.bind(SoundDevice, [&] { window.sound().showPanel(); });
    commands.bind(RecordTake, [&] {
        window.showTakes(true);
        window.taking().recordOrStop();
    });
    commands.bind(ShowTakes, [&] { window.showTakes(!window.takes().isVisible()); });
}

void bindLoopAndSpeed(CommandSet& commands, DeskWindow& window) {
    ListeningDesk& ears = window.listening();
    commands.bind(LoopFromOrToHere, [&] { ears.loopFromOrToHere(); });
    commands.bind(LoopPhrase, [&] { window.loopPhrase(); });
    commands.bind(LoopOff, [&] { ears.loopOver(std::nullopt); });
    commands.bind(LoopStartEarlier, [&] { ears.nudgeLoop(LoopEnd::Start, -1); });
    commands.bind(LoopStartLater, [&] { ears.nudgeLoop(LoopEnd::Start, 1); });
    commands.bind(LoopEndEarlier, [&] { ears.nudgeLoop(LoopEnd::End, -1); });
    commands.bind(LoopEndLater, [&] { ears.nudgeLoop(LoopEnd::End, 1); });
    commands.bind(Slower, [&] { ears.slower(); });
    commands.bind(Faster, [&] { ears.faster(); });
    commands.bind(FullSpeed, [&] { ears.playAt(1.0); });
    LoopMannerDesk& manner = window.loopManner();
    commands.bind(ClimbOnOrOff, [&] { manner.toggleClimb(); });
    commands.bind(ClimbStepBack, [&] { manner.stepBack(); });
    commands.bind(ClimbSettings, [&] { window.sheet().openClimbMenu(); });
    commands.bind(GapLonger, [&] { manner.chooseGap(manner.gapBeats() + 1); });
    commands.bind(GapShorter, [&] { manner.chooseGap(manner.gapBeats() - 1); });
    commands.bind(TradeSlower, [&] { manner.stepYoursSpeed(-1); });
    commands.bind(TradeFaster, [&] { manner.stepYoursSpeed(1); });
    commands.bind(TradeAsRecord, [&] { manner.chooseYoursSpeed(std::nullopt); });
    commands.bind(SemitoneDown, [&] { ears.transposeBy(-1); });
    commands.bind(SemitoneUp, [&] { ears.transposeBy(1); });
}

void bindBeatAndBand(CommandSet& commands, DeskWindow& window) {
    BeatDesk& beat = window.beatDesk();
    ListeningDesk& ears = window.listening();
    commands.bind(Clicks, [&] { beat.click(!beat.isClicking()); });
    commands.bind(CountIn, [&] { beat.nextCountIn(ears.place()); });
    BandDesk& band = window.bandDesk();
    commands.bind(NextBand, [&] { band.next(); });
    commands.bind(BandAroundPhrase, [&] {
        if (const auto phrase = window.phraseUnderCursor()) band.chooseAround(*phrase);
    });
    commands.bind(BandLowLower, [&] { band.stepLow(-1); });
    commands.bind(BandLowHigher, [&] { band.stepLow(1); });
    commands.bind(BandHighLower, [&] { band.stepHigh(-1); });
    commands.bind(BandHighHigher, [&] { band.stepHigh(1); });
    commands.bind(HoldHere, [&] { window.listening().holdOrLetGo(); });
}

void bindMarking(CommandSet& commands, DeskWindow& window) {
    MarkingDesk& marks = window.marking();
    commands.bind(TapBar, [&] { marks.tapBar(); });
    commands.bind(TapBeat, [&] { marks.tapBeat(); });
    commands.bind(RemoveMark, [&] { marks.removeMark(); });
    commands.bind(BarOneHere, [&] { marks.barOneHere(); });
    using Subject = PassageDialog::Subject;
    commands.bind(MeterHere, [&] { marks.askForPassage(Subject::Meter, &window); });
    commands.bind(KeyHere, [&] { marks.askForPassage(Subject::Key, &window); });
    commands.bind(SwingHere, [&] { marks.askForPassage(Subject::Swing, &window); });
    commands.bind(TempoHere, [&] { marks.askForPassage(Subject::Tempo, &window); });
    commands.bind(RepeatHere, [&] { marks.askForPassage(Subject::Repeat, &window); });
    commands.bind(PickupLength, [&] { marks.askForPassage(Subject::Pickup, &window); });
    commands.bind(FindBeats, [&] { window.findBeats(); });
    commands.bind(AcceptBeats, [&] { window.beatFinding().accept(); });
    commands.bind(MarkPhrase, [&] { marks.nameStretch(SpanKind::Phrase); });
    commands.bind(MarkChorus, [&] { marks.nameStretch(SpanKind::Chorus); });
    commands.bind(MarkSection, [&] { marks.nameStretch(SpanKind::Section); });
    commands.bind(RenameSpan, [&] { marks.renameSpan(); });
    commands.bind(RemoveSpan, [&] { marks.removeSpanHere(); });
    commands.bind(PreviousPhrase, [&] { marks.toPhrase(-1); });
    commands.bind(NextPhrase, [&] { marks.toPhrase(1); });
    commands.bind(ChordsHere, [&] { marks.chordsHere(); });
    commands.bind(Form, [&] { marks.askForForm(&window); });
    commands.bind(LooseEndHere, [&] { marks.looseEndHere(); });
    commands.bind(NextLooseEnd, [&] { marks.nextLooseEnd(); });
    commands.bind(TickLooseEnd, [&] { marks.tickLooseEnd(); });
}

void bindWriting(CommandSet& commands, DeskWindow& window) {
    NoteGrid* grid = window.panel().grid();
    // Whoever writes works in the grid: its page stays, and arrows move its cursor.
    const auto write = [&](CommandId id, std::function<void()> deed) {
        commands.bind(id, [&window, deed = std::move(deed)] {
            window.workInGrid();
            deed();
        });
    };
    write(NoteInOrOut, [=] { grid->noteInOrOut(); });
    write(RemoveNote, [=] { grid->removeNote(); });
    write(NextColumn, [=] { grid->stepColumn(1); });
    write(PreviousColumn, [=] { grid->stepColumn(-1); });
    write(Longer, [=] { grid->changeLength(1); });
    write(Shorter, [=] { grid->changeLength(-1); });
    write(NoteEarlier, [=] { grid->moveNote(-1, 0); });
    write(NoteLater, [=] { grid->moveNote(1, 0); });
    write(NoteHigher, [=] { grid->moveNote(0, 1); });
    write(NoteLower, [=] { grid->moveNote(0, -1); });
    write(SpreadNotes, [=] { grid->spreadNotes(); });
    write(RespellNote, [=] { grid->respellNotes(); });
    write(NoteLouder, [=] { grid->changeLoudness(1); });
    write(NoteSofter, [=] { grid->changeLoudness(-1); });
    for (const PhrasingKind kind : allPhrasingKinds)
        write(commandFor(kind), [=] { grid->togglePhrasing(kind); });
    write(MoreGrace, [=] { grid->addGrace(); });
    write(MarkHigher, [=] { grid->stepMark(1); });
    write(MarkLower, [=] { grid->stepMark(-1); });
    write(MarksMenu, [=] { grid->openMarks(); });
    write(StringHigher, [&window] { window.strings().stepSelected(true); });
    write(StringLower, [&window] { window.strings().stepSelected(false); });
    write(StringFree, [&window] { window.strings().freeSelected(); });
    write(SelectNext, [=] { grid->extendSelection(1); });
    write(SelectBefore, [=] { grid->extendSelection(-1); });
    write(SelectAllNotes, [=] { grid->selectAll(); });
    write(DynamicLouder, [=] { grid->stepDynamic(1); });
    write(DynamicSofter, [=] { grid->stepDynamic(-1); });
    write(HairpinLouder, [=] { grid->toggleHairpin(HairpinKind::Louder); });
    write(HairpinSofter, [=] { grid->toggleHairpin(HairpinKind::Softer); });
    write(WordsHere, [=] { grid->askForWords(false); });
    write(ClearPageMarks, [=] { grid->clearPageMarks(); });
    write(TapRhythm, [&window] { window.tapping().startOrFinish(); });
    EntryDesk& entry = window.entry();
    write(EnterByInstrument, [&entry] { entry.startOrEnd(); });
    write(EntryOctaveHigher, [&entry] { entry.stepOctave(1); });
    write(EntryOctaveLower, [&entry] { entry.stepOctave(-1); });
    int parts = 0;
    for (const CommandId id :
         {DivideByOne, DivideByTwo, DivideByThree, DivideByFour, DivideByFive, DivideBySix, DivideBySeven,
          DivideByEight, DivideByNine, DivideByTen, DivideByEleven, DivideByTwelve}) {
        ++parts;
        write(id, [=] { grid->setDivision(parts); });
    }
}

/// Whoever changes the page wants to see it.
void changePage(DeskWindow& window, PageStep (*step)(const PageWish&)) {
    window.showPage(true);
    PageView& page = window.page();
    const auto [wish, said] = step(page.wish());
    page.choose(wish);
    window.messages().notice(page.trouble().isEmpty() ? said : page.trouble());
}

void bindPage(CommandSet& commands, DeskWindow& window) {
    commands.bind(ShowPage, [&] { window.showPage(!window.page().isWanted()); });
    const auto change = [&](CommandId id, PageStep (*step)(const PageWish&)) {
        commands.bind(id, [&window, step] { changePage(window, step); });
    };
    change(NextReading, nextReading);
    change(NextClef, nextClef);
    change(PageTablature, tablatureInOrOut);
    change(PageChords, chordSymbolsInOrOut);
    change(PageDegrees, degreesInOrOut);
    change(PageFewerBars, fewerBars);
    change(PageMoreBars, moreBars);
    change(PageLarger, larger);
    change(PageSmaller, smaller);
    commands.bind(PageChoices, [&] {
        window.showPage(true);
        window.page().openMenuByKey(window.panel().grid()->selectedNote());
    });
    commands.bind(Strings, [&] { window.strings().askForTuning(); });
}

/// The chords of the selected stretch, else of the loop, of the chorus where the ear is, or all.
void checkChords(DeskWindow& window) {
    const DeskSession& session = window.session();
    const Span* chorus = session.study().spanAt(SpanKind::Chorus, window.listening().place());
    const Range<Seconds> rest = chorus ? chorus->range : Range<Seconds>{Seconds(0), session.duration()};
    window.chordDesk().check(window.marking().stretch().value_or(rest));
}

void askWhoPlays(DeskWindow& window) {
    DeskSession& session = window.session();
    auto* dialog = new PlayersDialog(
        session.study().players,
        [&session](const Players& players) {
            session.apply(DeskWindow::tr("who plays"), setPlayers(session.study(), players));
        },
        &window);
    openForThisStudy(*dialog, session);
}

void bindCheckAndHelp(CommandSet& commands, DeskWindow& window) {
    commands.bind(CheckPhrase, [&] { window.checking().check(window.phrasesToCheck()); });
    commands.bind(NextHelp, [&] {
        if (const auto phrase = window.phraseUnderCursor())
            window.checking().help(*phrase, window.listening().place());
    });
    commands.bind(CommandId::Feel, [&] {
        if (const auto phrase = window.phraseToCheck()) window.feel().tell(*phrase);
    });
    commands.bind(HowPlayed, [&] {
        if (const auto phrase = window.phraseToCheck()) window.playing().tellOrPutAway(*phrase);
    });
    commands.bind(CommandId::CheckChords, [&] { checkChords(window); });
    commands.bind(TellChord, [&] { window.chordDesk().tell(window.listening().place()); });
    commands.bind(WhoPlays, [&] { askWhoPlays(window); });
    commands.bind(ShowEarRecord, [&] {
        openForThisStudy(*new EarRecordDialog(window.session().study().earRecord, &window), window.session());
    });
    commands.bind(NextPart, [&] { window.toNextPart(); });
    commands.bind(Keys, [&] {
        auto* dialog = new KeysDialog(window.keys(), &window);
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->show();
    });
    commands.bind(About, [&] {
        const QString licence = MusicFont::licence();
        auto* box = new QMessageBox(QMessageBox::NoIcon, aboutTitle(), aboutText(licence), QMessageBox::Close,
                                    &window);
        if (!licence.isEmpty()) box->setDetailedText(licence);
        box->setDefaultButton(QMessageBox::Close);
        box->setAttribute(Qt::WA_DeleteOnClose);
        box->open();
    });
}

} // namespace

void bindCommands(CommandSet& commands, DeskWindow& window) {
    bindStudy(commands, window);
    bindPlaying(commands, window);
    bindLoopAndSpeed(commands, window);
    bindBeatAndBand(commands, window);
    bindMarking(commands, window);
    bindWriting(commands, window);
    bindPage(commands, window);
    bindCheckAndHelp(commands, window);
}

} // namespace earwright::ui
