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
    EXPECT_TRUE(told().contains("changed since")) << told().toStdString();
    ask();
    EXPECT_TRUE(soon([&] { return !told().isEmpty() && !told().contains("changed since"); }));
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
