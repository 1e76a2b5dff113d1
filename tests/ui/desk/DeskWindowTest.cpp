#include "ui/desk/DeskWindow.h"

#include "core/study/SpanEdits.h"
#include "core/study/StudyFile.h"
#include "tests/ui/Soon.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QSignalSpy>
#include <QTest>
#include <QUrl>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

class DeskWindowTest : public TonesDesk {};

TEST_F(DeskWindowTest, BindsEveryCommand) {
    EXPECT_TRUE(window->commands().unbound().empty());
}

TEST_F(DeskWindowTest, FillsAScreenThatHasNoRoomForItsFrame) {
    const QSize usual = window->size();
    const auto fills = [&](const QSize& room) {
        window = std::make_unique<DeskWindow>(options(), settings);
        window->resize(usual);
        window->showWithin(room);
        return window->isMaximized();
    };
    EXPECT_FALSE(fills(usual + QSize(200, 200)));
    EXPECT_TRUE(fills({usual.width() + 200, usual.height()})) << "the last row would lie below the screen";
    EXPECT_TRUE(fills({usual.width() - 1, usual.height() + 200}));
}

TEST_F(DeskWindowTest, ComesBackInTheSizeTheUserGaveItHoweverTightTheScreenIs) {
    settings.setValue("desk/geometry", window->saveGeometry());
    window = std::make_unique<DeskWindow>(options(), settings);
    window->showWithin(window->size());
    EXPECT_FALSE(window->isMaximized());
    settings.remove("desk/geometry");
    window = std::make_unique<DeskWindow>(options(), settings);
    window->showWithin(window->size());
    EXPECT_TRUE(window->isMaximized());
}

TEST_F(DeskWindowTest, OpensAFileDroppedAnywhereOnIt) {
    QMimeData file;
    file.setUrls({QUrl::fromLocalFile(QString::fromStdString(recording().string()))});
    QWidget* sheet = window->sheet().viewport();
    QDragEnterEvent enter(sheet->rect().center(), Qt::CopyAction, &file, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(sheet, &enter);
    ASSERT_TRUE(enter.isAccepted());
    QSignalSpy opened(&window->session(), &DeskSession::opened);
    QDropEvent drop(sheet->rect().center(), Qt::CopyAction, &file, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(sheet, &drop);
    ASSERT_TRUE(opened.wait(5000));
    EXPECT_EQ(window->session().recording()->path(), recording());
}

TEST_F(DeskWindowTest, TakesNoDropOfSeveralFilesOrOfAWebPage) {
    QWidget* sheet = window->sheet().viewport();
    for (const QList<QUrl>& urls : {QList<QUrl>{QUrl::fromLocalFile("/a.wav"), QUrl::fromLocalFile("/b.wav")},
                                    QList<QUrl>{QUrl("https://example.org/a.wav")}}) {
        QMimeData several;
        several.setUrls(urls);
        QDragEnterEvent enter(sheet->rect().center(), Qt::CopyAction, &several, Qt::LeftButton,
                              Qt::NoModifier);
        QApplication::sendEvent(sheet, &enter);
        EXPECT_FALSE(enter.isAccepted());
    }
}

TEST_F(DeskWindowTest, OffersNothingButOpeningBeforeAnythingIsOpen) {
    EXPECT_TRUE(window->commands().action(CommandId::Open)->isEnabled());
    EXPECT_FALSE(window->commands().action(CommandId::TapBar)->isEnabled());
    EXPECT_FALSE(window->commands().action(CommandId::Save)->isEnabled());
}

TEST_F(DeskWindowTest, DoesTheJobFromARecordingToASavedStudyByKeysAlone) {
    open(recording());
    // Tap bars where the ear is.
    earTo(0.5);
    press(Qt::Key_Return);
    earTo(2.5);
    press(Qt::Key_Return);
    ASSERT_TRUE(study().beatMap.hasTempo());
    EXPECT_EQ(study().beatMap.marks()[0].position, Beats(0));
    EXPECT_EQ(study().beatMap.marks()[1].position, Beats(4));
    EXPECT_NEAR(study().beatMap.marks()[1].time.value, 2.5, 0.001);

    // Loop bar 2 and take it at half speed.
    press(Qt::Key_L);
    earTo(4.5);
    press(Qt::Key_L);
    ASSERT_TRUE(study().practice.loop);
    EXPECT_NEAR(study().practice.loop->begin.value, 2.5, 0.001);
    EXPECT_NEAR(study().practice.loop->end.value, 4.5, 0.001);
    for (int i = 0; i < 3; ++i)
        press(Qt::Key_Minus);
    EXPECT_DOUBLE_EQ(study().practice.speed, 0.5);

    // Name it as a phrase, and write its notes.
    press(Qt::Key_M);
    typeWord("a");
    ASSERT_EQ(study().spans.size(), 1u);
    earTo(2.6);
    ASSERT_TRUE(window->panel().grid()->hasColumns());
    writeNote(Beats(4), 60);
    writeNote(Beats(5), 64);
    ASSERT_EQ(study().notes.size(), 2u);
    press(Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_EQ(study().notes[1].length, Beats(1));
    press(Qt::Key_A);
    EXPECT_TRUE(study().notes[1].phrasing.accented);
    press(Qt::Key_Up, Qt::AltModifier);
    EXPECT_EQ(study().notes[1].pitch.midi, 65);

    // Take it back, make it again.
    press(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(study().notes[1].pitch.midi, 64);
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(study().notes[1].pitch.midi, 65);
    press(Qt::Key_Z, Qt::ControlModifier);

    // A loose end, ticked off again.
    press(Qt::Key_Q);
    typeWord("grace note?");
    ASSERT_EQ(study().looseEnds.size(), 1u);
    EXPECT_EQ(study().looseEnds[0].text, "grace note?");
    press(Qt::Key_Q, Qt::ShiftModifier);
    EXPECT_TRUE(study().looseEnds[0].done);

    // Save, and find it again as it was.
    ASSERT_TRUE(soon([&] { return !study().recording.contentHash.empty(); }));
    QSignalSpy saved(&window->session(), &DeskSession::saved);
    window->session().saveTo(in("tones.study"));
    ASSERT_TRUE(saved.wait(5000));
    const Study kept = study();
    open(in("tones.study"));
    EXPECT_EQ(study(), kept);
}

TEST_F(DeskWindowTest, PlaysAndFollowsTheEar) {
    open(recording());
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return window->listening().ear() > Seconds(0.3); }));
    EXPECT_TRUE(window->listening().heard().playing);
    press(Qt::Key_Space);
    ASSERT_TRUE(soon([&] { return !window->listening().listen().playing; }));
}

TEST_F(DeskWindowTest, ChecksThePhraseOnlyWhenAskedAndHelpsInSteps) {
    markBarsAndPhrase();
    earTo(2.6);
    for (const auto& [beat, midi] : {std::pair{4, 60}, {5, 65}, {6, 67}, {7, 72}}) {
        writeNote(Beats(beat), midi);
        press(Qt::Key_Right, Qt::ShiftModifier);
    }
    ASSERT_EQ(study().notes.size(), 4u);
    EXPECT_TRUE(window->checking().book().verdicts().empty());
    EXPECT_FALSE(window->commands().action(CommandId::NextHelp)->isEnabled());

    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return window->checking().book().verdicts().size() == 4; }));
    const auto verdicts = window->checking().book().verdicts();
    EXPECT_EQ(verdicts.at(study().notes[0].id), Verdict::Supported);
    EXPECT_NE(verdicts.at(study().notes[1].id), Verdict::Supported); // the record has E, 64

    press(Qt::Key_H);
    EXPECT_EQ(window->panel().ladder()->step(), HelpStep::SomethingOff);
    press(Qt::Key_H);
    EXPECT_EQ(window->panel().ladder()->step(), HelpStep::WhichWay);

    // Corrected, the place is judged no longer until the next check, which then supports it.
    window->panel().grid()->goToNote(study().notes[1].id);
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(study().notes[1].pitch.midi, 64);
    EXPECT_FALSE(window->checking().book().verdicts().contains(study().notes[1].id));
    EXPECT_TRUE(window->panel().ladder()->sentence().contains("you have changed 1 note"));
    EXPECT_TRUE(window->panel().grid()->accessibleDescription().endsWith("changed since the check"));
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return window->checking().book().verdicts().size() == 4; }));
    EXPECT_EQ(window->checking().book().verdicts().at(study().notes[1].id), Verdict::Supported);
    EXPECT_EQ(study().earRecord.foundWithHelp(), 1);
    EXPECT_EQ(study().earRecord.foundByEar(), 0);
}

TEST_F(DeskWindowTest, ChecksAllPhrasesOfTheLoop) {
    markBars();
    // Bar 2 has C4 E4 G4 C5. Two phrases of two beats; the second beat of each is written wrong.
    for (const auto& [beat, midi] : {std::pair{4, 60}, {5, 65}, {6, 67}, {7, 71}})
        writeNote(Beats(beat), midi);
    Study phrased = study();
    phrased = addSpan(phrased, SpanKind::Phrase, "a", {Seconds(2.5), Seconds(3.5)}).study;
    phrased = addSpan(phrased, SpanKind::Phrase, "b", {Seconds(3.5), Seconds(4.5)}).study;
    window->session().apply("phrases", phrased);
    window->listening().loopOver(Range{Seconds(2.5), Seconds(4.5)});
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return window->checking().book().verdicts().size() == 4; }));
    EXPECT_TRUE(window->messages().sentence("phrases checked").startsWith("2 phrases checked: 2 supported"));
    // Without the loop it is the phrase of the grid alone.
    window->listening().loopOver(std::nullopt);
    window->messages().close("phrases checked");
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return !window->checking().isBusy(); }));
    EXPECT_TRUE(window->messages().sentence("phrases checked").isEmpty());
}

TEST_F(DeskWindowTest, MakesPhrasesOfWhatIsWrittenInTheSelectedStretch) {
    markBars();
    writeNote(Beats(4), 60);
    writeNote(Beats(5), 64);
    press(Qt::Key_Escape);
    window->sheet().setStretch(Range{Seconds(2.0), Seconds(5.0)});
    press(Qt::Key_C);
    ASSERT_EQ(study().spans.size(), 1u);
    EXPECT_EQ(study().spans[0].kind, SpanKind::Phrase);
    ASSERT_TRUE(soon([&] { return window->checking().hasAnswer(study().spans[0].id); }));
    EXPECT_EQ(window->checking().book().verdicts().size(), 2u);
}

TEST_F(DeskWindowTest, ChecksNoPhraseInWhichNothingIsWrittenYet) {
    markBarsAndPhrase();
    earTo(2.6);
    press(Qt::Key_C);
    EXPECT_FALSE(window->checking().isBusy());
    EXPECT_FALSE(window->commands().action(CommandId::NextHelp)->isEnabled());
    EXPECT_TRUE(window->messages().sentence("nothing written").contains("write what you hear first"));

    writeNote(Beats(4), 60);
    EXPECT_TRUE(window->messages().sentence("nothing written").isEmpty());
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return window->checking().book().verdicts().size() == 1; }));
}

TEST_F(DeskWindowTest, ChecksWrittenNotesThatNobodyMarkedAsAPhrase) {
    markBars();
    // Bar 2 has C4 E4 G4 C5; the second is written a semitone too low.
    writeNote(Beats(4), 60);
    writeNote(Beats(5), 63);
    writeNote(Beats(6), 67);
    press(Qt::Key_C);
    ASSERT_EQ(study().spans.size(), 1u);
    EXPECT_EQ(study().spans[0].kind, SpanKind::Phrase);
    EXPECT_EQ(study().spans[0].name, "bar 2");
    EXPECT_NEAR(study().spans[0].range.begin.value, 2.5, 0.001);
    EXPECT_NEAR(study().spans[0].range.end.value, 4.0, 0.001);
    ASSERT_TRUE(soon([&] { return window->checking().hasAnswer(study().spans[0].id); }));
    EXPECT_TRUE(window->checking().hasPlaces(study().spans[0].id));
    press(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_TRUE(study().spans.empty());
    EXPECT_EQ(study().notes.size(), 3u);
}

TEST_F(DeskWindowTest, HelpsWithThePhraseItMadeThoughTheEarIsBesideIt) {
    markBars();
    writeNote(Beats(4), 60);
    writeNote(Beats(5), 63);
    press(Qt::Key_Escape);
    window->sheet().setFocus();
    earTo(1.6);
    press(Qt::Key_C);
    ASSERT_EQ(study().spans.size(), 1u);
    ASSERT_TRUE(soon([&] { return window->checking().hasPlaces(study().spans[0].id); }));
    press(Qt::Key_H);
    EXPECT_EQ(window->panel().ladder()->step(), HelpStep::SomethingOff);
}

TEST_F(DeskWindowTest, ChecksWhatIsWrittenInTheGridWhereverTheEarIs) {
    markBars();
    writeNote(Beats(4), 60);
    window->workInGrid();
    window->listening().hearFrom(Seconds(10));
    ASSERT_TRUE(soon([&] { return window->listening().place().value > 9.9; }));
    press(Qt::Key_C);
    ASSERT_EQ(study().spans.size(), 1u);
    EXPECT_EQ(study().spans[0].name, "bar 2");
}

TEST_F(DeskWindowTest, SaysWhyAKeyDoesNothing) {
    open(recording());
    press(Qt::Key_C);
    EXPECT_EQ(window->messages().sentence("notice"), window->commands().whyNot(QKeySequence(Qt::Key_C)));
    EXPECT_FALSE(window->messages().sentence("notice").isEmpty());
}

TEST_F(DeskWindowTest, KeepsLettersForTheWordWhileOneIsTyped) {
    markBarsAndPhrase();
    earTo(1);
    press(Qt::Key_Q);
    auto* editor = window->sheet().findChild<QLineEdit*>();
    ASSERT_TRUE(editor->isVisible());
    const Study before = study();
    for (const Qt::Key key : {Qt::Key_L, Qt::Key_P, Qt::Key_Space, Qt::Key_Minus, Qt::Key_N})
        QTest::keyClick(editor, key, Qt::NoModifier);
    EXPECT_EQ(study(), before);
    EXPECT_FALSE(window->listening().listen().playing);
    QTest::keyClick(editor, Qt::Key_Escape);
    EXPECT_EQ(study(), before);
}

TEST_F(DeskWindowTest, TradesOverThePhraseWhereThereIsNoLoop) {
    markBarsAndPhrase();
    press(Qt::Key_L, Qt::ShiftModifier);
    ASSERT_FALSE(study().practice.loop);
    earTo(3);
    window->chooseHearing(Hearing::Trade);
    ASSERT_TRUE(study().practice.loop);
    EXPECT_EQ(*study().practice.loop, study().spans[0].range);
}

TEST_F(DeskWindowTest, SaysInOneSentenceWhyAFileDoesNotOpenAndKeepsTheOneThatIs) {
    open(recording());
    window->open(in("gone.wav"));
    ASSERT_TRUE(soon([&] { return window->messages().sentence("failed").contains("gone.wav"); }));
    EXPECT_TRUE(window->session().isOpen());
    EXPECT_EQ(study().title, "tones");
}

TEST_F(DeskWindowTest, LetsTheHandMoveAMarkInOneStep) {
    markBarsAndPhrase();
    const std::size_t steps = study().beatMap.marks().size();
    window->marking().grant(MoveMarkTo{1, Seconds(2.6)});
    EXPECT_EQ(study().beatMap.marks().size(), steps);
    EXPECT_NEAR(study().beatMap.marks()[1].time.value, 2.6, 1e-9);
    press(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_NEAR(study().beatMap.marks()[1].time.value, 2.5, 0.001);
}

TEST_F(DeskWindowTest, GrantsEveryWishOfTheSheet) {
    markBarsAndPhrase();
    MarkingDesk& marks = window->marking();
    marks.grant(TypeChords{2, "Fm7 Bb7"});
    EXPECT_EQ(study().barChords(2).chords.size(), 2u);
    marks.grant(KeepToForm{2});
    EXPECT_TRUE(study().barChords(2).chords.empty());
    marks.grant(NameSpan{study().spans[0].id, "b"});
    EXPECT_EQ(study().spans[0].name, "b");
    marks.grant(LoopOver{{Seconds(1), Seconds(2)}});
    EXPECT_EQ(study().practice.loop, (Range{Seconds(1), Seconds(2)}));
    marks.grant(PlayAt{80});
    EXPECT_DOUBLE_EQ(study().practice.speed, 0.8);
    marks.grant(MarkBeatAt{Seconds(1.02)});
    EXPECT_EQ(study().beatMap.marks().size(), 3u);
    marks.grant(RemoveMarkAt{1});
    EXPECT_EQ(study().beatMap.marks().size(), 2u);
    marks.grant(ChooseSpan{study().spans[0].id});
    EXPECT_EQ(window->sheet().stretch(), study().spans[0].range);
    marks.grant(ChooseStretch{std::nullopt});
    EXPECT_FALSE(window->sheet().stretch());
    marks.grant(DropSpan{study().spans[0].id});
    EXPECT_TRUE(study().spans.empty());
    marks.grant(KeepLooseEnd{Seconds(1), "turn?"});
    marks.grant(RewordLooseEnd{study().looseEnds[0].id, "turn"});
    EXPECT_EQ(study().looseEnds[0].text, "turn");
    marks.grant(TickLooseEnd{study().looseEnds[0].id});
    EXPECT_TRUE(study().looseEnds[0].done);
}

} // namespace
} // namespace earwright::ui
