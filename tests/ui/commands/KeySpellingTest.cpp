#include "ui/commands/KeySpelling.h"

#include <QKeyEvent>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

std::vector<QKeySequence> pressed(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    return spellingsOf(QKeyEvent(QEvent::KeyPress, key, modifiers));
}

TEST(KeySpelling, LeavesPlainKeysAsTheyCome) {
    EXPECT_EQ(pressed(Qt::Key_K, Qt::ControlModifier), std::vector{QKeySequence("Ctrl+K")});
    EXPECT_EQ(pressed(Qt::Key_Less, Qt::NoModifier), std::vector{QKeySequence("<")})
        << "a key of its own on many keyboards";
}

TEST(KeySpelling, CallsTabWithShiftWhatPeopleCallIt) {
    EXPECT_EQ(pressed(Qt::Key_Backtab, Qt::ShiftModifier), std::vector{QKeySequence("Shift+Tab")});
}

// As printed on keyboards of the United States: < over the comma, > over the full stop.
TEST(KeySpelling, KnowsTheSignUnderTheOneThatComesWithShift) {
    EXPECT_EQ(pressed(Qt::Key_Less, Qt::ShiftModifier),
              (std::vector{QKeySequence("Shift+<"), QKeySequence("Shift+,")}));
    EXPECT_EQ(pressed(Qt::Key_Greater, Qt::ShiftModifier | Qt::ControlModifier).back(),
              QKeySequence("Ctrl+Shift+."));
}

} // namespace
} // namespace earwright::ui
