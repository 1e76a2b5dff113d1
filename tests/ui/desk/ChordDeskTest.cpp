#include "ui/desk/ChordDesk.h"

#include "core/study/ChartEdits.h"
#include "core/study/MarkEdits.h"
#include "core/study/NoteEdits.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"

#include <QSignalSpy>

namespace earwright::ui {
namespace {

/// The desk on two bars of two seconds from 0.5 s on in which C9 is played: E, B flat, D and G over a bass of
/// C and G. F sharp minor stands over the second of them.
class ChordDeskTest : public TonesDesk {
protected:
    void SetUp() override {
        std::vector<GeneratedTone> tones;
        for (int beat = 0; beat < 8; ++beat) {
            const double at = 0.5 + 0.5 * beat;
            tones.push_back({at, 0.48, beat % 2 == 0 ? 36 : 43});
            if (beat % 2 != 0) continue;
            for (const int midi : {52, 58, 62, 67})
                tones.push_back({at, 0.9, midi});
        }
        writeRecording(recording(), 6, tones);
        TonesDesk::SetUp();
        open(recording());
        Study marked = study();
        marked.beatMap =
            BeatMap({{Beats(0), Seconds(0.5)}, {Beats(4), Seconds(2.5)}, {Beats(8), Seconds(4.5)}});
        window->session().apply("bars and chords", overrideBars(marked, 1, "C9 | F#m"));
    }

    const std::vector<CheckedChord>& answers() { return window->chordDesk().answers(); }
    void check() {
        press(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
        ASSERT_TRUE(soon([&] { return !answers().empty(); }));
    }
    QString told() { return window->messages().sentence("chords told"); }
};

TEST_F(ChordDeskTest, AnswersForEachChordWhenAsked) {
    EXPECT_TRUE(answers().empty());
    check();
    // Bar 3 and after lie beyond the recording's chords; both written ones are answered.
    ASSERT_GE(answers().size(), 2u);
    EXPECT_EQ(answers()[0].answer.verdict, Verdict::Supported);
    EXPECT_EQ(answers()[1].answer.verdict, Verdict::Contradicted);
    EXPECT_TRUE(told().contains("1 supported")) << told().toStdString();
    window->messages().close("chords told");
    QApplication::processEvents();
    keepPicture(*window, "chords-checked-light.png");
    applyTheme(*qApp, Appearance::Dark);
    keepPicture(*window, "chords-checked-dark.png");
    applyTheme(*qApp, Appearance::Light);
}

TEST_F(ChordDeskTest, ChecksTheLoopAlone) {
    window->listening().loopOver(Range{Seconds(2.4), Seconds(4.5)});
    check();
    ASSERT_EQ(answers().size(), 1u);
    EXPECT_EQ(answers()[0].bar, 2);
}

TEST_F(ChordDeskTest, SaysWhatSpeaksForTheChordAtTheEar) {
    EXPECT_FALSE(window->commands().action(CommandId::TellChord)->isEnabled());
    check();
    earTo(2.6);
    ASSERT_TRUE(soon([&] { return window->commands().action(CommandId::TellChord)->isEnabled(); }));
    press(Qt::Key_H, Qt::ShiftModifier);
    EXPECT_TRUE(told().startsWith("Bar 2, F♯m: contradicted")) << told().toStdString();
    EXPECT_TRUE(told().contains("the bass plays C, not F♯")) << told().toStdString();
}

TEST_F(ChordDeskTest, ContradictsASymbolWhoseBassIsNotPlayed) {
    // C is in the bass as both bars begin.
    window->session().apply("chords", overrideBars(study(), 2, "C9/E"));
    check();
    earTo(2.6);
    ASSERT_TRUE(soon([&] { return window->commands().action(CommandId::TellChord)->isEnabled(); }));
    press(Qt::Key_H, Qt::ShiftModifier);
    EXPECT_TRUE(told().contains("its bass contradicted")) << told().toStdString();
    EXPECT_TRUE(told().contains("the bass plays C, not E")) << told().toStdString();
    keepPicture(*window, "chord-bass-contradicted.png");
}

TEST_F(ChordDeskTest, ShowsTheSentenceWhereTheHandPoints) {
    check();
    const auto& places = window->sheet().places();
    const std::size_t line = places.lineOf(Seconds(0.6));
    const QPoint at(qRound(places.barX(line, 1)) + 6, qRound(places.chordRow(line).center().y()));
    QTest::mouseMove(window->sheet().viewport(), at);
    QTest::mouseMove(window->sheet().viewport(), at + QPoint(1, 0));
    const QString tip = window->sheet().viewport()->toolTip();
    EXPECT_TRUE(tip.startsWith("Bar 1, C9: supported. Heard:")) << tip.toStdString();
    EXPECT_TRUE(tip.contains("Double-click")) << tip.toStdString();
}

TEST_F(ChordDeskTest, TakesBackTheAnswerOfAChordThatIsWrittenOtherwise) {
    check();
    const std::size_t before = answers().size();
    window->session().apply("chords", overrideBars(study(), 2, "C7"));
    ASSERT_EQ(answers().size(), before - 1);
    EXPECT_EQ(answers()[0].bar, 1);
    // An answer once taken back does not come again by undo: it would be of a check nobody asked for.
    window->session().undo();
    EXPECT_EQ(answers().size(), before - 1);
}

TEST_F(ChordDeskTest, TakesBackAnswersWhereBeatsOrMetersMove) {
    check();
    window->session().apply("move mark", moveMark(study(), 2, Seconds(4.3)));
    ASSERT_EQ(answers().size(), 1u);
    EXPECT_EQ(answers()[0].bar, 1);
    Study inThree = study();
    inThree.meter = Meter{3, 4};
    window->session().apply("meter", inThree);
    EXPECT_TRUE(answers().empty());
}

TEST_F(ChordDeskTest, KeepsAnswersWhileTheLineIsWritten) {
    check();
    const auto before = answers();
    window->session().apply("note", addNote(study(), NewNote{Pitch{64, {}}, Beats(1)}).study);
    EXPECT_EQ(answers(), before);
}

TEST_F(ChordDeskTest, SaysSoWhereNoChordStands) {
    window->listening().loopOver(Range{Seconds(1.0), Seconds(2.0)});
    press(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return !told().isEmpty(); }));
    EXPECT_TRUE(told().startsWith("No chord")) << told().toStdString();
    EXPECT_TRUE(answers().empty());
}

} // namespace
} // namespace earwright::ui
