// The page under the grid, read as the user wants without a mouse.
#include "tests/ui/Picture.h"
#include "tests/ui/desk/TonesDesk.h"
#include "ui/desk/PageDesk.h"
#include "ui/page/PageMemory.h"
#include "ui/page/PageView.h"

#include <QMenu>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr auto altShift = Qt::AltModifier | Qt::ShiftModifier;

class PageKeys : public TonesDesk {
protected:
    void SetUp() override {
        TonesDesk::SetUp();
        if (!window->page().trouble().isEmpty()) GTEST_SKIP() << window->page().trouble().toStdString();
        writeTheLine();
    }
    QString told() { return window->messages().sentence(QStringLiteral("notice")); }
    bool isLaidOut() {
        return soon([&] { return !window->pages().isLayingOut() && window->page().isVisible(); });
    }
    QMenu* menu() { return qobject_cast<QMenu*>(QApplication::activePopupWidget()); }
};

TEST_F(PageKeys, GoToTheNextReadingAndRememberIt) {
    press(Qt::Key_R, altShift);
    EXPECT_EQ(window->page().wish().reading, Reading::BFlat);
    EXPECT_EQ(rememberedWish(settings).reading, Reading::BFlat);
    EXPECT_TRUE(told().contains("B♭")) << told().toStdString();
    ASSERT_TRUE(isLaidOut());
    keepPicture(*window, "page-for-b-flat.png");
}

TEST_F(PageKeys, ChangeClefAndWhatIsShown) {
    press(Qt::Key_C, altShift);
    EXPECT_EQ(window->page().wish().clef, Clef::Treble);
    press(Qt::Key_T, altShift);
    EXPECT_FALSE(window->page().wish().tablature);
    press(Qt::Key_K, altShift);
    EXPECT_FALSE(window->page().wish().chordSymbols);
    press(Qt::Key_D, altShift);
    EXPECT_TRUE(window->page().wish().degrees);
    press(Qt::Key_Up, altShift);
    press(Qt::Key_Up, altShift);
    press(Qt::Key_Down, altShift);
    EXPECT_EQ(window->page().wish().zoom, 1.25);
}

TEST_F(PageKeys, PutMoreOrFewerBarsOnALineAndRememberIt) {
    press(Qt::Key_Left, altShift);
    EXPECT_EQ(rememberedWish(settings).barsPerLine, 3);
    for (int i = 0; i < 6; ++i)
        press(Qt::Key_Right, altShift);
    EXPECT_EQ(window->page().wish().barsPerLine, std::nullopt);
    EXPECT_EQ(rememberedWish(settings).barsPerLine, std::nullopt);
}

TEST_F(PageKeys, BringBackAPageThatWasPutAway) {
    press(Qt::Key_E, Qt::ShiftModifier);
    ASSERT_FALSE(window->page().isWanted());
    press(Qt::Key_D, altShift);
    EXPECT_TRUE(window->page().isWanted());
    EXPECT_TRUE(isLaidOut());
}

TEST_F(PageKeys, OpenThePagesMenuAndChooseInItByArrows) {
    ASSERT_TRUE(isLaidOut());
    press(Qt::Key_E, altShift);
    ASSERT_TRUE(soon([&] { return menu() != nullptr; }));
    QTest::keyClick(menu(), Qt::Key_Down);
    ASSERT_TRUE(menu()->activeAction());
    EXPECT_EQ(menu()->activeAction()->text(), QStringLiteral("Played on")) << "the strings of the note";
    for (int i = 0; i < 10 && menu()->activeAction()->text() != QLatin1String("Tablature"); ++i)
        QTest::keyClick(menu(), Qt::Key_Down);
    QTest::keyClick(menu(), Qt::Key_Return);
    EXPECT_FALSE(window->page().wish().tablature);
}

} // namespace
} // namespace earwright::ui
