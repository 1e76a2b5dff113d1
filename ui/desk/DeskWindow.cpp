#include "ui/desk/DeskWindow.h"

#include "core/study/PlayedTime.h"
#include "ui/desk/DeskCommands.h"
#include "ui/desk/ExportDesk.h"
#include "ui/desk/ImportDesk.h"
#include "ui/desk/PageDesk.h"
#include "ui/desk/SheetDesk.h"
#include "ui/desk/SpeedSteps.h"
#include "ui/desk/StringsDesk.h"
#include "ui/desk/StudyPaths.h"
#include "ui/desk/TypingGuard.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/page/PageView.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/sheet/PillMenu.h"
#include "ui/strip/FormStripView.h"
#include "ui/takes/TakePanel.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/Type.h"
#include "ui/transport/TransportBar.h"
#include "ui/transport/TuningLine.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDragEnterEvent>
#include <QLabel>
#include <QMenuBar>
#include <QMimeData>
#include <QSplitter>
#include <QUrl>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int frameMilliseconds = 16; // 60 pictures a second
/// What is not about the playhead is looked at every so many frames.
constexpr int framesBetweenLooks = 6;
/// A single peak held back is too short to be seen; milliseconds.
constexpr qint64 heldBackShown = 1500;

/// The playhead on the page moves by so many parts of a beat.
constexpr std::int64_t playheadParts = 48;

const auto loopSubject = QStringLiteral("loop");

} // namespace

DeskWindow::DeskWindow(const DeskSession::Options& options, QSettings& store, std::unique_ptr<MidiPorts> midi)
    : settings(store),
      desk(options),
      bindings(store),
      commandSet(new CommandSet(bindings, *this)),
      formStrip(new FormStripView),
      messageBar(new MessageBar),
      chorusSheet(new ChorusSheetView),
      gridPanel(new NoteGridPanel),
      pageView(new PageView),
      takePanel(new TakePanel),
      transportBar(new TransportBar),
      splitter(new QSplitter(Qt::Horizontal)),
      title(new QLabel) {
    marks = new MarkingDesk(desk, ears, *chorusSheet, this);
    beatFinder = new BeatFinding(desk, *chorusSheet, *messageBar, this);
    checks = new CheckDesk(desk, listener, *gridPanel, *chorusSheet, *messageBar, this);
    chords = new ChordDesk(desk, listener, *chorusSheet, *messageBar, this);
    playedAs = new AsPlayedDesk(desk, listener, *messageBar, this);
    feels = new FeelDesk(desk, listener, *gridPanel->feel(), *messageBar, this);
    playingDesk = new PlayingDesk(desk, listener, checks->book(), *gridPanel->grid(), *gridPanel->playing(),
                                  *messageBar, this);
    keeper = new KeepingDesk(desk, *messageBar, *this);
    pageDesk = new PageDesk(*pageView, settings, this);
    stringsDesk = new StringsDesk(desk, *gridPanel->grid(), *messageBar, *this);
    sheetDesk = new SheetDesk(desk, tuning, *messageBar, settings, *this);
    new ImportDesk(desk, *keeper, *messageBar, *this);
    exportDesk = new ExportDesk(desk, listener, *messageBar, settings, *this);
    listener.keepIn(options.cache);
    sounding = new SoundDesk(desk.engine(), settings, *transportBar, this);
    takeDesk = new TakeDesk(desk, ears, *takePanel, *messageBar, settings);
    takeDesk->setParent(this);
    keyboardDesk =
        new KeyboardDesk(std::move(midi), *takePanel->keyboardChoice(), *messageBar, settings, this);
    tapDesk = new TapDesk(desk, ears, tuning, *keyboardDesk, *gridPanel->grid(), *messageBar, *this);
    entryDesk = new EntryDesk(desk, ears, tuning, *takeDesk, *keyboardDesk, *gridPanel->grid(), *messageBar,
                              settings, this);
    connect(keyboardDesk, &KeyboardDesk::struck, tapDesk, &TapDesk::play);
    connect(keyboardDesk, &KeyboardDesk::struck, entryDesk, [this](const KeyStroke& stroke) {
        if (!tapDesk->isTapping()) entryDesk->play(stroke);
    });
    new TypingGuard(this);
    build();
    bindCommands(*commandSet, *this);
    connectSession();
    connectStrip();
    connectPanel();
    connectTransport();
    connectListening();
    connectBeatAndBand();
    restoreLayout();
    frames.setTimerType(Qt::PreciseTimer);
    connect(&frames, &QTimer::timeout, this, &DeskWindow::tick);
    frames.start(frameMilliseconds);
    showTitle();
    offerCommands();
}

DeskWindow::~DeskWindow() {
    // Views lose the focus one by one as they go, after the parts that would be told.
    disconnect(qApp, nullptr, this, nullptr);
}

void DeskWindow::showStudy() {
    const auto study = desk.shared();
    formStrip->setStudy(study);
    chorusSheet->setStudy(study);
    gridPanel->setStudy(study);
    pageView->setStudy(study);
    takePanel->setStudy(study);
    transportBar->setStudy(study);
    transportBar->setPlaying({study->practice.speed, study->practice.semitones, study->practice.cents});
    if (cursor.follow(*study, ears.place())) turnPage();
    showBarsOnPage();
    offerCommands();
}

void DeskWindow::showRecording() {
    const auto level = [this](const Range<Seconds>& range) { return desk.level(range); };
    formStrip->setRecording(desk.duration(), level);
    chorusSheet->setRecording(desk.duration(), level);
    transportBar->setLength(desk.duration());
    transportBar->setHasRecording(desk.recording() != nullptr);
    listener.setRecording(desk.recording());
}

void DeskWindow::showTitle() {
    if (!desk.isOpen()) {
        title->clear();
        setWindowTitle(tr("Earwright"));
        return;
    }
    const QString state = keeper->hasUnsavedWork()   ? tr("not saved")
                          : desk.studyFile().empty() ? tr("new")
                                                     : tr("saved");
    title->setText(tr("%1 · %2").arg(titleOf(desk), state));
    setWindowTitle(tr("%1 · %2 – Earwright").arg(titleOf(desk), state));
    menuBar()->setCornerWidget(title); // lays the corner out anew for the new width
    title->show();
}

KeyOf DeskWindow::keyOf() const {
    return [this](CommandId id) { return bindings.firstKey(id); };
}

void DeskWindow::adviseOnMarking() {
    messageBar->say(adviceSubject(), MessageBar::Tone::Question,
                    tr("No bars are marked yet. Play, and %1 on each bar line, or %2 on a single beat.")
                        .arg(howTo(CommandId::TapBar, keyOf()), howTo(CommandId::TapBeat, keyOf())));
}

void DeskWindow::showLoopMaking() {
    const auto start = ears.loopBeingMade();
    if (!start) return messageBar->close(loopSubject);
    const Study& study = desk.study();
    const QString place = study.beatMap.hasTempo()
                              ? placeText(Beats::nearest(study.beatMap.beatsAt(*start), 12), study.meters())
                              : clockText(*start);
    messageBar->say(loopSubject, MessageBar::Tone::Question,
                    tr("The loop starts at %1. %2 where it ends.")
                        .arg(place, howToSentence(CommandId::LoopFromOrToHere, keyOf())),
                    {{tr("Cancel"), [this] { ears.giveUpLoop(); }}});
}

void DeskWindow::showLoopManner() {
    const Climb& climb = manner.climb();
    chorusSheet->setClimb(climb, manner.isClimbing());
    chorusSheet->setGap(manner.gapBeats());
    showTrade();
    if (manner.isClimbing() && climb.isAtTarget(desk.study().practice.speed))
        messageBar->notice(tr("The climb ends at %1 %: slow the loop down first.").arg(climb.targetPercent));
}

void DeskWindow::showTrade() {
    const auto yours = manner.yoursSpeed();
    chorusSheet->setTrade(ears.hearing() == Hearing::Trade,
                          yours ? static_cast<int>(std::lround(*yours * 100)) : asTheRecord);
}

void DeskWindow::showTuning() {
    transportBar->setTuning(tuning.record(), tuning.drift());
    transportBar->tuningLine()->setReference(tuning.reference());
    offerCommands();
}

void DeskWindow::tick() {
    const bool look = frameCount++ % framesBetweenLooks == 0;
    if (look) sounding->look();
    if (look) takeDesk->follow();
    keyboardDesk->follow();
    if (!desk.isOpen()) return;
    const Seconds ear = ears.place();
    manner.follow();
    entryDesk->follow();
    formStrip->setHeard(ear);
    chorusSheet->setHeard(ear);
    chorusSheet->setHeld(ears.isHolding() ? std::optional(ear) : std::nullopt);
    gridPanel->grid()->setPlayhead(ear);
    const BeatMap& beatMap = desk.study().beatMap;
    pageView->setPlayhead(beatMap.hasTempo()
                              ? std::optional(Beats::nearest(beatMap.beatsAt(ear), playheadParts))
                              : std::nullopt);
    transportBar->setHeard(ear, ears.heard().playing);
    showHeard();
    if (!look) return;
    listener.listenNear(ear);
    if (ears.heard().playing && cursor.follow(desk.study(), ear)) turnPage();
    offerCommands();
}

void DeskWindow::showHeard() {
    const Heard& heard = ears.heard();
    transportBar->showManner(heard);
    if (ears.takeHeldBack()) sinceHeldBack.start();
    transportBar->setHeldBack(sinceHeldBack.isValid() && sinceHeldBack.elapsed() < heldBackShown);
}

void DeskWindow::turnPage() {
    const GridPage& page = cursor.page();
    if (page.phrase)
        gridPanel->showPhrase(*page.phrase);
    else
        gridPanel->showRange(page.bars);
    chorusSheet->setPhrase(page.phrase);
    checks->setPhrase(page.phrase);
    feels->setPhrase(page.phrase);
    playingDesk->setPhrase(page.phrase);
    showBarsOnPage();
}

void DeskWindow::showBarsOnPage() {
    const NoteGrid* grid = gridPanel->grid();
    pageView->setBars(grid->hasColumns() ? std::optional(grid->shownBars()) : std::nullopt);
}

void DeskWindow::goTo(Seconds place) {
    if (!desk.isOpen()) return;
    ears.hearFrom(place);
    chorusSheet->setHeard(place);
    chorusSheet->reveal(place);
    if (cursor.goTo(desk.study(), place)) turnPage();
    if (desk.study().beatMap.hasTempo())
        gridPanel->grid()->goTo(Beats::nearest(desk.study().beatMap.beatsAt(place), 12));
    offerCommands();
}

void DeskWindow::letGo() {
    if (tapDesk->giveUp() || entryDesk->giveUp()) return;
    if (chorusSheet->letGo() || ears.giveUpLoop() || ears.letHeldGo()) return;
    if (chorusSheet->stretch()) return chorusSheet->setStretch(std::nullopt);
    if (gridPanel->grid()->dropSelection()) return;
    if (beatFinder->dismiss()) return;
    if (!cursor.letGo()) return;
    chorusSheet->setFocus();
    if (cursor.follow(desk.study(), ears.place())) turnPage();
}

void DeskWindow::workInGrid() {
    gridPanel->grid()->setFocus();
    cursor.hold();
}

void DeskWindow::loopPhrase() {
    if (const auto stretch = chorusSheet->stretch()) {
        chorusSheet->setStretch(std::nullopt);
        return ears.loopOver(*stretch);
    }
    const auto phrase = phraseUnderCursor();
    if (!phrase)
        return messageBar->notice(
            tr("There is no phrase here. Drag over a stretch of the sheet, then %1 to loop it or %2 to name "
               "it as "
               "a phrase.")
                .arg(howTo(CommandId::LoopPhrase, keyOf()), howTo(CommandId::MarkPhrase, keyOf())));
    ears.loopOver(desk.study().span(*phrase)->range);
}

void DeskWindow::findBeats() {
    if (const auto stretch = marks->stretch()) return beatFinder->find(*stretch);
    const auto phrase = phraseUnderCursor();
    beatFinder->find(phrase ? desk.study().span(*phrase)->range : chorusSheet->timeInSight());
}

void DeskWindow::chooseHearing(Hearing hearing) {
    ears.hear(hearing);
    if (hearing != Hearing::Trade || !desk.isOpen() || desk.study().practice.loop) return;
    if (const auto phrase = phraseUnderCursor())
        ears.loopOver(desk.study().span(*phrase)->range);
    else
        messageBar->notice(tr("Trade takes turns over a loop: mark a phrase here, or %1 where a loop begins "
                              "and where it ends.")
                               .arg(howTo(CommandId::LoopFromOrToHere, keyOf())));
}

std::optional<SpanId> DeskWindow::phraseUnderCursor() {
    return desk.isOpen() ? cursor.phrase(desk.study(), ears.place()) : std::nullopt;
}

std::optional<Beats> DeskWindow::placeInGrid() const {
    const NoteGrid* grid = gridPanel->grid();
    return cursor.isHeld() && grid->hasColumns() ? std::optional(grid->cursor().place) : std::nullopt;
}

std::optional<Range<Seconds>> DeskWindow::stretchToCheck() {
    if (!desk.isOpen() || !desk.study().beatMap.hasTempo()) return std::nullopt;
    if (const auto chosen = chorusSheet->stretch()) return chosen;
    const auto& loop = desk.study().practice.loop;
    if (!loop) return std::nullopt;
    const auto phrase = phraseUnderCursor();
    const auto inGrid = placeInGrid();
    const Seconds cursorPlace = inGrid ? desk.study().beatMap.seconds(*inGrid) : ears.place();
    const bool isInLoop =
        phrase ? desk.study().span(*phrase)->range.overlaps(*loop) : loop->contains(cursorPlace);
    return isInLoop ? loop : std::nullopt;
}

std::vector<SpanId> DeskWindow::phrasesToCheck() {
    const auto stretch = stretchToCheck();
    std::vector<SpanId> phrases;
    if (!stretch || !isAnyPlayedIn(desk.study(), *stretch)) {
        if (const auto phrase = phraseToCheck()) phrases.push_back(*phrase);
        return phrases;
    }
    const std::size_t marked = desk.study().spans.size();
    marks->markWrittenRuns(*stretch);
    const Study& study = desk.study();
    if (study.spans.size() > marked)
        messageBar->notice(tr("The notes in this stretch that were in no phrase are phrases now."));
    for (const Span& span : study.spans) {
        if (span.kind != SpanKind::Phrase || !span.range.overlaps(*stretch)) continue;
        const Range<Seconds> both{std::max(span.range.begin, stretch->begin),
                                  std::min(span.range.end, stretch->end)};
        if (isAnyPlayedIn(study, both)) phrases.push_back(span.id);
    }
    return phrases;
}

std::optional<SpanId> DeskWindow::phraseToCheck() {
    if (const auto phrase = phraseUnderCursor()) return phrase;
    const auto marked = marks->markWrittenRun(placeInGrid());
    const Span* const phrase = marked ? desk.study().span(*marked) : nullptr;
    if (!phrase) return std::nullopt;
    // Where the ear is beside it, the page keeps C and H to it.
    const bool stays = cursor.isHeld() || !phrase->range.contains(ears.place());
    if (cursor.goTo(desk.study(), phrase->range.begin)) turnPage();
    if (stays) cursor.hold();
    messageBar->notice(
        tr("The notes around here are a phrase now: “%1”.").arg(QString::fromStdString(phrase->name)));
    return marked;
}

void DeskWindow::offerCommands() {
    commandSet->setConditions(conditions());
    const auto named = [](const QString& verb, const QString& what) {
        return what.isEmpty() ? verb : verb + QStringLiteral(": ") + what;
    };
    commandSet->action(CommandId::Undo)
        ->setText(named(command(CommandId::Undo).translatedName(), desk.undoName()));
    commandSet->action(CommandId::Redo)
        ->setText(named(command(CommandId::Redo).translatedName(), desk.redoName()));
}

void DeskWindow::open(const std::filesystem::path& path) {
    keeper->open(path);
}

void DeskWindow::closeEvent(QCloseEvent* event) {
    if (takeDesk->isRecording()) {
        takeDesk->stop();
        messageBar->notice(tr("The take is being kept; close again when it is on the list."));
        return event->ignore();
    }
    if (!keeper->mayClose()) return event->ignore();
    keepLayout();
    event->accept();
}

void DeskWindow::dragEnterEvent(QDragEnterEvent* event) {
    const auto urls = event->mimeData()->urls();
    if (urls.size() == 1 && urls.front().isLocalFile()) event->acceptProposedAction();
}

void DeskWindow::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    open(pathOf(event->mimeData()->urls().front().toLocalFile()));
}

} // namespace earwright::ui
