#include "ui/desk/AsPlayedDesk.h"

#include "core/study/PlayedTime.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/theme/QuietButton.h"
#include "ui/transport/TransportBar.h"

namespace earwright::ui {
namespace {

/// The tones of the desk's recording begin on the beat; here the line is written with bar 2 marked 40 ms
/// early, so that the record is 40 ms behind.
class AsPlayedDeskTest : public TonesDesk {
protected:
    void writeTheLineEarly() {
        markBars(0.46, 2.46);
        earTo(2.6);
        for (const auto& [beat, midi] : {std::pair{4, 60}, {5, 64}, {6, 67}}) {
            writeNote(Beats(beat), midi);
            press(Qt::Key_Right, Qt::ShiftModifier);
        }
        ASSERT_EQ(study().notes.size(), 3u);
    }
    AsPlayedDesk& desk() { return window->asPlayed(); }
    double behind(std::size_t note) {
        const Note& written = study().notes[note];
        const PlayedNote* played = playingOf(desk().played(), study(), written);
        return played ? (played->heard.begin - playedTime(study(), written.onset)).value : -1;
    }
};

TEST_F(AsPlayedDeskTest, MeasuresTheLineWhenItIsSwitchedOn) {
    writeTheLineEarly();
    EXPECT_TRUE(desk().played().empty());
    press(Qt::Key_P, Qt::ShiftModifier);
    EXPECT_TRUE(desk().isOn());
    EXPECT_TRUE(window->transport().asPlayedButton()->isChecked());
    ASSERT_TRUE(soon([&] { return desk().played().size() == 3; }));
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_NEAR(behind(i), 0.040, 0.008) << i;
    keepPicture(*window, "as-played.png");
    press(Qt::Key_P, Qt::ShiftModifier);
    EXPECT_FALSE(desk().isOn());
    EXPECT_FALSE(window->transport().asPlayedButton()->isChecked());
}

TEST_F(AsPlayedDeskTest, IsSwitchedByTheWordBesideYours) {
    writeTheLineEarly();
    QTest::mouseClick(window->transport().asPlayedButton(), Qt::LeftButton);
    EXPECT_TRUE(desk().isOn());
    ASSERT_TRUE(soon([&] { return desk().played().size() == 3; }));
}

TEST_F(AsPlayedDeskTest, MeasuresWhatIsWrittenMeanwhile) {
    writeTheLineEarly();
    press(Qt::Key_P, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return desk().played().size() == 3; }));
    writeNote(Beats(7), 72);
    ASSERT_TRUE(soon([&] { return desk().played().size() == 4; }));
    // What was measured of a note holds no longer once it is written otherwise.
    const NoteId changed = study().notes[1].id;
    window->panel().grid()->goToNote(changed);
    press(Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(playingOf(desk().played(), study(), *study().note(changed)), nullptr);
}

TEST_F(AsPlayedDeskTest, TellsOnceHowManyNotesAreHeard) {
    const auto told = [this] { return window->messages().sentence("as played"); };
    writeTheLineEarly();
    writeNote(Beats(12), 48); // at 6.5 s, where nothing sounds
    press(Qt::Key_P, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return !told().isEmpty(); }));
    EXPECT_TRUE(told().startsWith("3 of 4 notes are heard")) << told().toStdString();
    window->messages().close("as played");
    writeNote(Beats(14), 48);
    ASSERT_TRUE(soon([&] { return !desk().isBusy(); }));
    EXPECT_TRUE(told().isEmpty()) << "it was told when it was switched on";
}

TEST_F(AsPlayedDeskTest, TellsNothingOfLaterNotesWhereAllWasMeasuredBefore) {
    writeTheLineEarly();
    press(Qt::Key_P, Qt::ShiftModifier);
    ASSERT_TRUE(soon([&] { return desk().played().size() == 3; }));
    press(Qt::Key_P, Qt::ShiftModifier);
    press(Qt::Key_P, Qt::ShiftModifier);
    writeNote(Beats(12), 48);
    ASSERT_TRUE(soon([&] { return !desk().isBusy(); }));
    EXPECT_TRUE(window->messages().sentence("as played").isEmpty());
}

TEST_F(AsPlayedDeskTest, SaysWhatIsMissingWithoutBars) {
    open(recording());
    desk().switchTo(true);
    EXPECT_FALSE(desk().isOn());
    EXPECT_TRUE(window->messages().sentence("notice").contains("mark two bars"));
    EXPECT_FALSE(window->commands().action(CommandId::AsPlayed)->isEnabled());
}

} // namespace
} // namespace earwright::ui
