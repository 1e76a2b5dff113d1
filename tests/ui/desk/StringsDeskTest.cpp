#include "ui/desk/StringsDesk.h"

#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/StringsDialog.h"
#include "ui/page/PageView.h"

#include <QLineEdit>
#include <QMenu>

namespace earwright::ui {
namespace {

class StringsDeskTest : public TonesDesk {
protected:
    void SetUp() override {
        TonesDesk::SetUp();
        markBarsAndPhrase();
        writeNote(Beats(4), 64);
        note = study().notes.front().id;
        window->panel().grid()->goToNote(note);
    }
    std::optional<int> pinned() { return study().note(note)->pinnedString; }
    void trigger(CommandId id) { window->commands().action(id)->trigger(); }

    NoteId note;
};

// E4 is the open first string of a guitar, and the 5th fret of the second.
TEST_F(StringsDeskTest, PinsTheSelectedNoteToTheStringsBesideItByKey) {
    ASSERT_EQ(pinned(), std::nullopt);
    window->strings().pin(note, 1);
    press(Qt::Key_PageDown, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(pinned(), 2);
    press(Qt::Key_PageUp, Qt::AltModifier | Qt::ShiftModifier);
    press(Qt::Key_PageUp, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(pinned(), 0);
    press(Qt::Key_PageUp, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(pinned(), 0) << "there is none over the first";
    press(Qt::Key_Home, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(pinned(), std::nullopt);
    trigger(CommandId::Undo);
    EXPECT_EQ(pinned(), 0);
}

TEST_F(StringsDeskTest, PinsFromTheMenuOfThePage) {
    if (!window->page().trouble().isEmpty()) GTEST_SKIP() << window->page().trouble().toStdString();
    window->page().openMenu({}, note);
    auto* menu = window->page().findChild<QMenu*>();
    ASSERT_TRUE(menu);
    for (QAction* action : menu->findChildren<QAction*>())
        if (action->text() == QLatin1String("String 3, fret 9")) action->trigger();
    EXPECT_EQ(pinned(), 2);
}

TEST_F(StringsDeskTest, TunesTheStringsInOneStepToUndo) {
    trigger(CommandId::Strings);
    auto* dialog = window->findChild<StringsDialog*>();
    ASSERT_TRUE(dialog);
    dialog->findChild<QLineEdit*>()->setText(QStringLiteral("B0 E1 A1 D2 G2"));
    dialog->accept();
    EXPECT_EQ(study().tuning.strings, (std::vector{43, 38, 33, 28, 23}));
    trigger(CommandId::Undo);
    EXPECT_EQ(study().tuning.strings, StringTuning{}.strings);
}

TEST_F(StringsDeskTest, RemembersHowThePageIsRead) {
    PageWish wish;
    wish.reading = Reading::BFlat;
    wish.clef = Clef::Bass;
    wish.degrees = true;
    wish.zoom = 1.5;
    window->page().setWish(wish);
    emit window->page().wishChanged(); // as its menu does
    window->session().giveUp();
    openWindow();
    EXPECT_EQ(window->page().wish(), wish);
}

TEST(StringsDialog, ReadsOneToEightStringsAndSaysWhatItCannotRead) {
    std::optional<StringTuning> chosen;
    StringsDialog dialog({}, [&](const StringTuning& made) { chosen = made; });
    auto* strings = dialog.findChild<QLineEdit*>();
    EXPECT_EQ(strings->text(), QStringLiteral("E2 A2 D3 G3 B3 E4"));
    for (const char* wrong : {"", "E2 H2", "C1 D1 E1 F1 G1 A1 B1 C2 D2"}) {
        strings->setText(QString::fromLatin1(wrong));
        EXPECT_EQ(dialog.tuning(), std::nullopt) << wrong;
        dialog.accept();
        EXPECT_FALSE(chosen) << wrong;
    }
    strings->setText(QStringLiteral("D A D G A D"));
    dialog.accept();
    ASSERT_TRUE(chosen);
    EXPECT_EQ(chosen->strings, (std::vector{62, 57, 55, 50, 45, 38}));
}

} // namespace
} // namespace earwright::ui
