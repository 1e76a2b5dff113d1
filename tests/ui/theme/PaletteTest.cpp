#include "ui/theme/Palette.h"

#include "ui/theme/Contrast.h"

#include <gtest/gtest.h>

using namespace earwright::ui;

namespace {

const Role marks[] = {Role::Recording, Role::Written, Role::Loop, Role::Hint, Role::LooseEnd,
                      Role::Proposal};
const Role grounds[] = {Role::Paper, Role::Page, Role::Panel, Role::Shade};

class PaletteOf : public testing::TestWithParam<Appearance> {
protected:
    double contrast(Role a, Role b) const { return contrastRatio(palette.color(a), palette.color(b)); }
    const Palette& palette = Palette::of(GetParam());
};

} // namespace

TEST_P(PaletteOf, TextReachesFourAndAHalfToOneOnEveryGround) {
    for (const Role ground : grounds) {
        EXPECT_GE(contrast(Role::Ink, ground), 4.5) << static_cast<int>(ground);
        EXPECT_GE(contrast(Role::Muted, ground), 4.5) << static_cast<int>(ground);
    }
}

// Marks need 3:1; they are also used for words ("grace note?" beside a flag), which need 4.5:1.
TEST_P(PaletteOf, MarksCanBeReadAsWordsOnEveryGround) {
    for (const Role mark : marks)
        for (const Role ground : grounds)
            EXPECT_GE(contrast(mark, ground), 4.5)
                << static_cast<int>(mark) << " on " << static_cast<int>(ground);
}

TEST_P(PaletteOf, MarksStayVisibleInsideTheLoop) {
    for (const Role mark : marks)
        EXPECT_GE(contrast(mark, Role::LoopWash), 3.0) << static_cast<int>(mark);
    EXPECT_GE(contrast(Role::Ink, Role::LoopWash), 4.5);
    EXPECT_GE(contrast(Role::Muted, Role::LoopWash), 4.5);
}

TEST_P(PaletteOf, WordsOnFilledMarksCanBeRead) {
    EXPECT_GE(contrast(Role::OnMark, Role::Ink), 4.5);
    for (const Role mark : marks)
        EXPECT_GE(contrast(Role::OnMark, mark), 4.5) << static_cast<int>(mark);
}

INSTANTIATE_TEST_SUITE_P(Appearances, PaletteOf, testing::Values(Appearance::Light, Appearance::Dark),
                         [](const auto& the) { return the.param == Appearance::Light ? "Light" : "Dark"; });

// The desk's own definition of its colours.
TEST(Palette, HasTheColoursOfTheDeskByDay) {
    const Palette& light = Palette::of(Appearance::Light);
    EXPECT_EQ(light.color(Role::Paper), QColor("#f7f3ea"));
    EXPECT_EQ(light.color(Role::Ink), QColor("#20242e"));
    EXPECT_EQ(light.color(Role::Recording), QColor("#a4551f"));
    EXPECT_EQ(light.color(Role::Written), QColor("#0f6b66"));
    EXPECT_EQ(light.color(Role::Loop), QColor("#7a3b7d"));
    EXPECT_EQ(light.color(Role::Hint), QColor("#3b5fa8"));
    EXPECT_EQ(light.color(Role::LooseEnd), QColor("#a63d2f"));
}
