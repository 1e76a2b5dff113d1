#include "ui/page/PageMenu.h"

#include <QMenu>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

Note noteOn(int midi) {
    Note note;
    note.id = {1};
    note.pitch = {midi, {}};
    return note;
}

QAction* action(const QMenu& menu, const QString& text) {
    for (QAction* one : menu.findChildren<QAction*>())
        if (one->text() == text) return one;
    return nullptr;
}

TEST(PageMenu, OffersTheStringsThatHaveTheNote) {
    QMenu menu;
    std::optional<std::optional<int>> chosen;
    // E4 is the open first string, the 5th fret of the second, and so on down to the 24th of the sixth, which
    // a neck of 22 frets has not.
    addStringsOf(menu, noteOn(64), {}, [&](std::optional<int> string) { chosen = string; });
    EXPECT_TRUE(action(menu, "String 1, fret 0"));
    EXPECT_TRUE(action(menu, "String 5, fret 19"));
    EXPECT_FALSE(action(menu, "String 6, fret 24"));
    action(menu, "String 2, fret 5")->trigger();
    ASSERT_TRUE(chosen);
    EXPECT_EQ(*chosen, 1);
    action(menu, "Where it lies best")->trigger();
    EXPECT_EQ(*chosen, std::nullopt);
}

TEST(PageMenu, ChangesOneWishAtATime) {
    QMenu menu;
    PageWish wish;
    wish.degrees = true;
    std::optional<PageWish> next;
    addPageWishes(menu, wish, [&](const PageWish& made) { next = made; });
    action(menu, "Bass")->trigger();
    ASSERT_TRUE(next);
    EXPECT_EQ(next->clef, Clef::Bass);
    EXPECT_TRUE(next->degrees);
    action(menu, "Tablature")->trigger();
    EXPECT_FALSE(next->tablature);
    action(menu, "Larger")->trigger();
    EXPECT_GT(next->zoom, wish.zoom);
    action(menu, "7")->trigger();
    EXPECT_EQ(next->barsPerLine, 7);
    action(menu, "As many as fit")->trigger();
    EXPECT_EQ(next->barsPerLine, std::nullopt);
}

TEST(PageMenu, ZoomsWithinBounds) {
    double zoom = 1;
    for (int i = 0; i < 20; ++i)
        zoom = nextZoom(zoom, true);
    EXPECT_EQ(zoom, 2.5);
    for (int i = 0; i < 20; ++i)
        zoom = nextZoom(zoom, false);
    EXPECT_EQ(zoom, 0.6);
}

} // namespace
} // namespace earwright::ui
