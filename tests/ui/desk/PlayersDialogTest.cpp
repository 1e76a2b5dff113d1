#include "ui/desk/PlayersDialog.h"

#include "core/study/PlayerEdits.h"
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/ChordDesk.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>

namespace earwright::ui {
namespace {

class PlayersDialogTest : public TonesDesk {
protected:
    PlayersDialog* ask() {
        press(Qt::Key_W, Qt::ControlModifier | Qt::ShiftModifier);
        return window->findChild<PlayersDialog*>();
    }
    template <class Widget>
    Widget* named(const char* name) {
        for (Widget* widget : window->findChild<PlayersDialog*>()->findChildren<Widget*>())
            if (widget->accessibleName() == name) return widget;
        return nullptr;
    }
    void choose(const char* list, const char* entry) {
        auto* box = named<QComboBox>(list);
        ASSERT_NE(box->findText(entry), -1);
        box->setCurrentIndex(box->findText(entry));
    }
};

TEST_F(PlayersDialogTest, KeepsTheInstrumentAndThePlaceOfTheBassAsOneStep) {
    open(recording());
    ASSERT_NE(ask(), nullptr);
    choose("Instrument of the line", "Tenor saxophone");
    choose("Where the bass is", "Left");
    EXPECT_EQ(named<QLineEdit>("Lowest note")->text(), "A♭2");
    EXPECT_FALSE(named<QLineEdit>("Lowest note")->isEnabled());
    keepPicture(*window->findChild<PlayersDialog*>(), "who-plays.png");
    window->findChild<PlayersDialog*>()->accept();
    EXPECT_EQ(study().players, (Players{Instrument::Tenor, StereoPlace::Left}));
    window->session().undo();
    EXPECT_EQ(study().players, Players{});
}

TEST_F(PlayersDialogTest, TakesAnInstrumentWithoutANameByHowItIsPlayed) {
    open(recording());
    PlayersDialog* dialog = ask();
    choose("Instrument of the line", "Another plucked instrument");
    // E1 and C7 are the ends of what is heard (LogAxis).
    EXPECT_EQ(named<QLineEdit>("Lowest note")->text(), "E1");
    EXPECT_EQ(named<QLineEdit>("Highest note")->text(), "C7");
    dialog->accept();
    EXPECT_EQ(study().players.line, LineInstrument(Instrument::AnyPlucked));
}

TEST_F(PlayersDialogTest, TakesTwoNotesAndRefusesWhatIsNoRange) {
    open(recording());
    PlayersDialog* dialog = ask();
    choose("Instrument of the line", "Between two notes");
    named<QLineEdit>("Lowest note")->setText("E6");
    named<QLineEdit>("Highest note")->setText("E2");
    dialog->accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_EQ(study().players, Players{});
    named<QLineEdit>("Lowest note")->setText("bb2");
    named<QLineEdit>("Highest note")->setText("E6");
    dialog->accept();
    EXPECT_EQ(study().players.line, LineInstrument(PitchRange{46, 88}));
}

TEST_F(PlayersDialogTest, RefusesWhatCannotBeHeardAndDrawsInWhatReachesBeyond) {
    open(recording());
    PlayersDialog* dialog = ask();
    choose("Instrument of the line", "Between two notes");
    // E1 and C7 are the ends of what is heard (LogAxis).
    named<QLineEdit>("Lowest note")->setText("D7");
    named<QLineEdit>("Highest note")->setText("G9");
    dialog->accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_EQ(study().players, Players{});
    named<QLineEdit>("Lowest note")->setText("C1");
    named<QLineEdit>("Highest note")->setText("E3");
    dialog->accept();
    EXPECT_TRUE(dialog->isVisible()) << "the user sees what became of the notes first";
    EXPECT_EQ(study().players, Players{});
    EXPECT_EQ(named<QLineEdit>("Lowest note")->text(), "E1");
    keepPicture(*dialog, "who-plays-drawn-in.png");
    dialog->accept();
    EXPECT_EQ(study().players.line, LineInstrument(PitchRange{28, 52}));
}

TEST_F(PlayersDialogTest, ShowsWhatTheStudySays) {
    open(recording());
    const Players said{PitchRange{50, 70}, StereoPlace::Centre};
    window->session().apply("who plays", setPlayers(study(), said));
    EXPECT_EQ(ask()->players(), said);
}

TEST_F(PlayersDialogTest, AnotherInstrumentTakesTheAnswersBack) {
    markBarsAndPhrase();
    earTo(2.6);
    writeNote(Beats(4), 60);
    press(Qt::Key_C);
    const SpanId phrase = study().spans.front().id;
    ASSERT_TRUE(soon([&] { return !window->checking().isBusy() && window->checking().hasAnswer(phrase); }));
    window->session().apply("who plays", setPlayers(study(), {{}, StereoPlace::Left}));
    EXPECT_TRUE(window->checking().hasAnswer(phrase));
    window->session().apply("who plays", setPlayers(study(), {Instrument::Tenor, StereoPlace::Left}));
    EXPECT_FALSE(window->checking().hasAnswer(phrase));
}

} // namespace
} // namespace earwright::ui
