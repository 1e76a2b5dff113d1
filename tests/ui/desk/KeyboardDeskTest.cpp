// A MIDI keyboard at the desk: plugged in, played and pulled out by the test.
#include "ui/desk/KeyboardDesk.h"

#include "core/study/PracticeEdits.h"
#include "tests/core/midi/FakePorts.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/takes/KeyboardChoice.h"
#include "ui/takes/TakePanel.h"
#include "ui/theme/QuietButton.h"

#include <QMenu>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

const char* const keys = "Stage Piano MIDI 1";

class AKeyboardAtTheDesk : public TonesDesk {
protected:
    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        cables.plug({keys});
        openWithMidi();
        markBarsAndPhrase();
        window->goTo(Seconds(2.6));
        ASSERT_TRUE(soon([this] { return grid().hasColumns() && window->keyboard().isThere(); }));
        window->workInGrid();
        grid().goTo(Beats(4));
    }
    void TearDown() override {
        TonesDesk::TearDown();
        window.reset();
    }
    void openWithMidi() {
        window =
            std::make_unique<DeskWindow>(options(), settings, std::make_unique<tests::FakePorts>(cables));
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    NoteGrid& grid() { return *window->panel().grid(); }
    EntryDesk& entry() { return window->entry(); }
    TapDesk& tapping() { return window->tapping(); }
    QString told(const char* subject) { return window->messages().sentence(QLatin1String(subject)); }

    void strike(int midi, Clock::time_point at = Clock::now()) {
        cables.send(keys, {0x90, static_cast<std::uint8_t>(midi), 80}, at);
        window->keyboard().follow();
    }
    void release(int midi, Clock::time_point at = Clock::now()) {
        cables.send(keys, {0x80, static_cast<std::uint8_t>(midi), 0}, at);
        window->keyboard().follow();
    }
    /// One after the other, clearly apart.
    void strikeInTurn(const std::vector<int>& midis) {
        for (const int midi : midis) {
            moment += 300ms;
            strike(midi, moment);
            release(midi, moment + 250ms);
        }
    }
    std::vector<std::pair<Beats, int>> written() {
        std::vector<std::pair<Beats, int>> notes;
        for (const Note& note : study().notes)
            notes.emplace_back(note.onset, note.pitch.midi);
        return notes;
    }

    tests::FakeCables cables;
    Clock::time_point moment = Clock::now();
};

using Written = std::vector<std::pair<Beats, int>>;

TEST_F(AKeyboardAtTheDesk, WritesEachKeyIntoOneColumnAfterTheOtherWithoutAnInput) {
    press(Qt::Key_I, Qt::AltModifier);
    ASSERT_TRUE(entry().isOn());
    EXPECT_TRUE(told("entry").contains(keys)) << told("entry").toStdString();
    EXPECT_TRUE(told("caution").isEmpty()) << "no input is opened";
    strikeInTurn({40, 64, 91});
    EXPECT_EQ(written(), (Written{{Beats(4), 40}, {Beats(9, 2), 64}, {Beats(5), 91}}));
    EXPECT_TRUE(told("entry").contains("G6 heard")) << told("entry").toStdString();
    keepPicture(*window, "entering-by-keyboard.png");
    window->session().undo();
    EXPECT_EQ(written().size(), 2u) << "each note is a step";
    press(Qt::Key_Escape);
    EXPECT_FALSE(entry().isOn());
    strikeInTurn({60});
    EXPECT_EQ(written().size(), 2u) << "it has ended";
}

TEST_F(AKeyboardAtTheDesk, WritesKeysStruckTogetherAsOnePlace) {
    press(Qt::Key_I, Qt::AltModifier);
    const auto at = Clock::now();
    strike(64, at);
    strike(69, at + 20ms);
    strike(69, at + 25ms);
    strike(71, at + 300ms);
    EXPECT_EQ(written(), (Written{{Beats(4), 64}, {Beats(4), 69}, {Beats(9, 2), 71}}));
}

TEST_F(AKeyboardAtTheDesk, TakesAChordInTheLastColumnAsWell) {
    grid().goTo(grid().shownBars().end - Beats(1, 2));
    press(Qt::Key_I, Qt::AltModifier);
    const auto at = Clock::now();
    strike(64, at);
    strike(67, at + 10ms);
    EXPECT_EQ(written().size(), 2u);
    EXPECT_TRUE(soon([this] { return !entry().isOn(); }));
    EXPECT_TRUE(told("notice").contains("last column"));
}

TEST_F(AKeyboardAtTheDesk, LeavesOutKeysThatNoLineHas) {
    press(Qt::Key_I, Qt::AltModifier);
    strikeInTurn({20, 100});
    EXPECT_TRUE(written().empty());
    EXPECT_TRUE(told("entry").contains("outside")) << told("entry").toStdString();
}

TEST_F(AKeyboardAtTheDesk, WritesATransposedRecordAsItWasMade) {
    window->session().adjust(setTransposition(study(), 2, 0));
    press(Qt::Key_I, Qt::AltModifier);
    strikeInTurn({66});
    EXPECT_EQ(written(), (Written{{Beats(4), 64}}));
    EXPECT_TRUE(told("entry").contains("written E4")) << told("entry").toStdString();
}

// A record made at 466 Hz, a semitone above 440: played at the reference it is a semitone lower, and its A is
// the keyboard's A.
TEST_F(AKeyboardAtTheDesk, TakesARecordBroughtToTheReferenceByTheReference) {
    TuningDesk& tuning = window->tuningDesk();
    EXPECT_DOUBLE_EQ(tuning.instrumentA(), 0) << "440 where nothing is known";
    tuning.setRecord(-40.0);
    EXPECT_DOUBLE_EQ(tuning.instrumentA(), -40) << "an instrument is tuned to the record";
    tuning.playInTune(true);
    EXPECT_DOUBLE_EQ(tuning.instrumentA(), 0);
    EXPECT_EQ(tuning.transposed(), 0);
    tuning.choose({415});
    ASSERT_TRUE(tuning.isInTune());
    EXPECT_NEAR(tuning.instrumentA(), -101.3, 0.1);
    tuning.setRecord(45.0);
    tuning.playInTune(true);
    EXPECT_EQ(study().practice.semitones, -1) << "more than a semitone down";
    EXPECT_EQ(tuning.transposed(), 0);
    tuning.playInTune(false);
    window->session().adjust(setTransposition(study(), 3, -20));
    EXPECT_DOUBLE_EQ(tuning.instrumentA(), 25);
    EXPECT_EQ(tuning.transposed(), 3);
}

TEST_F(AKeyboardAtTheDesk, OffersWaysToWriteWhatWasPlayedAtItsOwnPitches) {
    press(Qt::Key_E, Qt::AltModifier);
    EXPECT_TRUE(told("tapping").contains(keys)) << told("tapping").toStdString();
    const std::vector<std::pair<double, int>> line{{2.506, 60}, {2.74, 64}, {3.01, 67}, {3.508, 72}};
    for (const auto& [seconds, midi] : line) {
        earTo(seconds);
        strike(midi);
        earTo(seconds + 0.2);
        release(midi);
    }
    press(Qt::Key_Return);
    ASSERT_GE(tapping().proposals().size(), 2u);
    keepPicture(*window, "rhythm-by-keyboard.png");
    EXPECT_TRUE(written().empty()) << "nothing is written yet";
    press(Qt::Key_Return);
    EXPECT_EQ(written(), (Written{{Beats(4), 60}, {Beats(9, 2), 64}, {Beats(5), 67}, {Beats(6), 72}}));
    window->session().undo();
    EXPECT_TRUE(written().empty());
}

TEST_F(AKeyboardAtTheDesk, SaysThatItHasGoneAndIsTakenAgain) {
    press(Qt::Key_I, Qt::AltModifier);
    strikeInTurn({64});
    cables.pull(keys);
    ASSERT_TRUE(soon([this] { return !window->keyboard().isThere(); }));
    EXPECT_TRUE(told("keyboard").contains("has gone")) << told("keyboard").toStdString();
    EXPECT_TRUE(told("entry").contains("Waiting")) << told("entry").toStdString();
    QTest::qWait(100); // until the row is laid out
    keepPicture(*window, "keyboard-gone.png");
    cables.plug({keys});
    ASSERT_TRUE(soon([this] { return window->keyboard().isThere(); }));
    EXPECT_TRUE(told("keyboard").contains("there again")) << told("keyboard").toStdString();
    strikeInTurn({67});
    EXPECT_EQ(written(), (Written{{Beats(4), 64}, {Beats(9, 2), 67}}));
}

TEST_F(AKeyboardAtTheDesk, IsChosenWhereInputsAre) {
    cables.plug({"Other Keys"});
    press(Qt::Key_Z, Qt::ShiftModifier);
    KeyboardChoice* choice = window->takes().keyboardChoice();
    ASSERT_TRUE(soon([this] { return window->keyboard().report().choices.size() == 2; }));
    EXPECT_EQ(choice->text(), QStringLiteral("keyboard ") + keys);
    choice->button()->click();
    auto* menu = choice->findChild<QMenu*>();
    ASSERT_TRUE(menu);
    QStringList words;
    for (const QAction* action : menu->actions())
        if (!action->isSeparator()) words << action->text();
    EXPECT_EQ(words, (QStringList{keys, "Other Keys", "whichever is there", "none"}));
    keepPicture(*window, "keyboard-choice.png");
    menu->actions()[1]->trigger();
    ASSERT_TRUE(soon([this] { return window->keyboard().name() == "Other Keys"; }));
    EXPECT_EQ(settings.value("keyboard/name").toString(), "Other Keys");
    menu->close();
    window->keyboard().use({false, {}});
    ASSERT_TRUE(soon([this] { return !window->keyboard().isThere(); }));
    EXPECT_EQ(choice->text(), "MIDI keyboard not used");
}

TEST_F(AKeyboardAtTheDesk, IsNoTroubleWhereTheSystemHasNoMidi) {
    cables.breakDown("This system has no MIDI: there is no sequencer.");
    openWithMidi();
    markBarsAndPhrase();
    ASSERT_TRUE(soon([this] { return window->keyboard().report().isKnown; }));
    EXPECT_TRUE(told("keyboard").isEmpty()) << "most have none, and need none";
    KeyboardChoice* choice = window->takes().keyboardChoice();
    EXPECT_EQ(choice->text(), "no MIDI keyboard");
    EXPECT_TRUE(choice->button()->toolTip().contains("no sequencer"));
}

} // namespace
} // namespace earwright::ui
