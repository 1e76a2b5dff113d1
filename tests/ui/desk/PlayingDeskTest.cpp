#include "ui/desk/PlayingDesk.h"

#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/grid/PlayingLine.h"

namespace earwright::ui {
namespace {

class PlayingDeskTest : public TonesDesk {
protected:
    QString told() { return window->panel().playing()->text(); }
    void writeTheLineAndSelectItsSecond() {
        writeTheLine();
        window->panel().grid()->goToNote(study().notes[1].id);
    }
    void ask() {
        press(Qt::Key_A, Qt::ShiftModifier);
        ASSERT_TRUE(soon([&] { return !window->playing().isBusy(); }));
    }
};

TEST_F(PlayingDeskTest, TellsOfTheSelectedNoteOnlyWhenAskedAndGoesWithTheSelection) {
    writeTheLineAndSelectItsSecond();
    EXPECT_TRUE(told().isEmpty());
    ask();
    ASSERT_TRUE(soon([&] { return told().contains("lasts"); })) << told().toStdString();
    EXPECT_TRUE(window->panel().playing()->isVisible());
    // The tones are alike, so a sign tells them apart.
    press(Qt::Key_X);
    EXPECT_TRUE(told().contains("ghost: ")) << told().toStdString();
    window->panel().grid()->goToNote(study().notes[3].id);
    EXPECT_TRUE(told().contains("lasts"));
    EXPECT_FALSE(told().contains("ghost")) << told().toStdString();
    keepPicture(*window, "how-it-is-played.png");
    ask();
    EXPECT_TRUE(told().isEmpty()) << "once more puts it away";
}

TEST_F(PlayingDeskTest, JudgesASignThatIsWrittenAfterwardsWithoutListeningAgain) {
    writeTheLineAndSelectItsSecond();
    ask();
    ASSERT_TRUE(soon([&] { return told().contains("lasts"); }));
    // The tones stand still.
    press(Qt::Key_S);
    EXPECT_TRUE(told().contains("slide: contradicted")) << told().toStdString();
    EXPECT_TRUE(window->panel().grid()->accessibleDescription().contains("slide contradicted"));
    keepPicture(*window, "how-a-slide-is-played.png");
}

TEST_F(PlayingDeskTest, SaysNothingOfANoteThatWasChangedUntilItIsMeasuredAgain) {
    writeTheLineAndSelectItsSecond();
    ask();
    ASSERT_TRUE(soon([&] { return told().contains("lasts"); }));
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_TRUE(told().startsWith("This note was changed since it was measured")) << told().toStdString();
    EXPECT_TRUE(told().contains("press Shift+A to have it measured"));
    ask();
    EXPECT_TRUE(soon([&] { return !told().isEmpty() && !told().contains("changed since"); }));
    // Its slur would come from the one before.
    window->panel().grid()->goToNote(study().notes[0].id);
    press(Qt::Key_Down, Qt::AltModifier);
    window->panel().grid()->goToNote(study().notes[1].id);
    EXPECT_TRUE(told().startsWith("The note before this one was changed since")) << told().toStdString();
    window->panel().grid()->goToNote(study().notes[2].id);
    EXPECT_TRUE(told().contains("lasts")) << "two notes on nothing is out of date";
}

TEST_F(PlayingDeskTest, SaysOfANoteThatIsNotHeardWhatTheCheckHasToSayToItNow) {
    writeTheLineAndSelectItsSecond();
    press(Qt::Key_Down, Qt::AltModifier);
    press(Qt::Key_Down, Qt::AltModifier);
    press(Qt::Key_Down, Qt::AltModifier);
    ask();
    ASSERT_TRUE(soon([&] { return told().startsWith("Not heard as it is written"); }))
        << told().toStdString();
    EXPECT_TRUE(told().contains("press C to check the phrase first")) << told().toStdString();
    press(Qt::Key_C);
    ASSERT_TRUE(soon([&] { return told().contains("the check says contradicted"); })) << told().toStdString();
    EXPECT_TRUE(told().contains("press H for a hint"));
    for (int step = 1; step <= 4; ++step)
        press(Qt::Key_H);
    EXPECT_TRUE(told().contains("the check says contradicted, and all its help is shown"))
        << told().toStdString();
    press(Qt::Key_Down, Qt::AltModifier);
    ask();
    ASSERT_TRUE(soon([&] { return told().contains("changed or written since the check"); }))
        << told().toStdString();
    EXPECT_TRUE(told().contains("press C to check it")) << told().toStdString();
    EXPECT_FALSE(told().contains("Not heard")) << "it may be right by now";
}

TEST_F(PlayingDeskTest, TellsNothingOfTheSoundThatANoteIsContradictedBy) {
    writeTheLineAndSelectItsSecond();
    for (int semitone = 0; semitone < 12; ++semitone)
        press(Qt::Key_Up, Qt::AltModifier);
    ask();
    // Every partial of the octave is one of the tone's own.
    ASSERT_TRUE(soon([&] { return told().contains("lasts"); })) << told().toStdString();
    press(Qt::Key_C);
    EXPECT_TRUE(soon([&] { return told().startsWith("Not heard as it is written"); }))
        << told().toStdString();
    EXPECT_TRUE(told().contains("the check says contradicted")) << told().toStdString();
}

// Eighths two to one: every second one lies 83 ms behind its even place, and none behind the line.
TEST_F(PlayingDeskTest, TellsAnEighthAgainstTheSwingOfItsLine) {
    const std::vector<int> line{60, 62, 64, 65, 67, 69, 67, 65, 64, 62, 60, 62, 64, 65, 67, 64};
    std::vector<GeneratedTone> tones;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool isSecond = i % 2 == 1;
        tones.push_back({2.5 + 0.5 * static_cast<double>(i / 2) + (isSecond ? 0.5 * 2 / 3 : 0),
                         isSecond ? 0.15 : 0.31, line[i]});
    }
    writeRecording(recording(), 12, tones);
    markBars();
    press(Qt::Key_L);
    earTo(6.5);
    press(Qt::Key_L);
    press(Qt::Key_M);
    typeWord("a");
    earTo(2.6);
    for (std::size_t i = 0; i < line.size(); ++i)
        writeNote(Beats(8 + static_cast<std::int64_t>(i), 2), line[i]);
    ask();
    window->panel().grid()->goToNote(study().notes[3].id);
    ASSERT_TRUE(soon([&] { return told().contains("as the line swings"); })) << told().toStdString();
    const QString number = told().section(QLatin1Char(' '), 0, 0);
    EXPECT_TRUE(number == "on" || number.toInt() <= 20) << told().toStdString();
    window->panel().grid()->goToNote(study().notes[2].id);
    EXPECT_TRUE(told().contains("lasts")) << told().toStdString();
    EXPECT_FALSE(told().contains("swings")) << "it is on the beat";
}

TEST_F(PlayingDeskTest, TellsThatABeatSoundsLikeATripletUntilItIsWrittenOtherwise) {
    const double beat = 0.5;
    writeRecording(recording(), 12,
                   {{2.5, 0.48, 60},
                    {3.0, 0.15, 64},
                    {3.0 + beat / 3, 0.15, 67},
                    {3.0 + 2 * beat / 3, 0.15, 65},
                    {3.5, 0.48, 62},
                    {4.0, 0.48, 60}});
    markBarsAndPhrase();
    earTo(2.6);
    window->panel().grid()->divideBeat(Beats(5), 4);
    for (const auto& [place, midi] : {std::pair{Beats(4), 60},
                                      {Beats(5), 64},
                                      {Beats(21, 4), 67},
                                      {Beats(11, 2), 65},
                                      {Beats(6), 62},
                                      {Beats(7), 60}})
        writeNote(place, midi);
    ASSERT_EQ(study().notes.size(), 6u);
    ASSERT_EQ(study().notes[2].onset, Beats(21, 4));
    window->panel().grid()->goToNote(study().notes[2].id);
    ask();
    ASSERT_TRUE(soon([&] { return told().contains("sound like a triplet"); })) << told().toStdString();
    window->panel().grid()->goToNote(study().notes[4].id);
    EXPECT_FALSE(told().contains("triplet")) << told().toStdString();
    // Away with the last of the three.
    window->panel().grid()->goToNote(study().notes[3].id);
    press(Qt::Key_Delete);
    ASSERT_EQ(study().notes.size(), 5u);
    window->panel().grid()->goToNote(study().notes[1].id);
    EXPECT_FALSE(told().contains("triplet")) << told().toStdString();
}

TEST_F(PlayingDeskTest, SaysThatNothingIsWrittenYet) {
    markBarsAndPhrase();
    earTo(2.6);
    press(Qt::Key_A, Qt::ShiftModifier);
    EXPECT_TRUE(window->messages().sentence("notice").contains("Nothing is written"));
    EXPECT_TRUE(told().isEmpty());
}

} // namespace
} // namespace earwright::ui
