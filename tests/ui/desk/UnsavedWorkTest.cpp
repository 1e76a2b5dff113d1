// Work that was never saved: asked about, and brought back after a crash.
#include "tests/ui/desk/TonesDesk.h"

#include <QSignalSpy>

#include <filesystem>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

class UnsavedWork : public TonesDesk {};

TEST_F(UnsavedWork, AsksBeforeUnsavedWorkIsLost) {
    open(recording());
    earTo(0.5);
    press(Qt::Key_Return);
    EXPECT_FALSE(window->close());
    EXPECT_FALSE(window->messages().sentence("losing").isEmpty());
    window->messages().choose("losing", 2); // stay
    EXPECT_TRUE(window->isVisible());
    EXPECT_FALSE(window->close());
    window->messages().choose("losing", 1); // close without saving
    EXPECT_FALSE(window->isVisible());
}

TEST_F(UnsavedWork, BringsBackWorkThatWasNeverSaved) {
    open(recording());
    earTo(0.5);
    press(Qt::Key_Return);
    const Study lost = study();
    window->session().recoveryCopy().finish();
    // As after a crash: a copy that no running program holds.
    const fs::path copy = *fs::directory_iterator(in("unsaved"));
    fs::copy_file(copy, in("kept"));
    window->session().giveUp();
    window->session().recoveryCopy().finish();
    fs::rename(in("kept"), copy);

    window = std::make_unique<DeskWindow>(options(), settings);
    QSignalSpy opened(&window->session(), &DeskSession::opened);
    window->session().findLostWork();
    ASSERT_TRUE(soon([&] { return !window->messages().sentence("lost unsaved work").isEmpty(); }));
    window->messages().choose("lost unsaved work", 0);
    ASSERT_TRUE(opened.wait(5000));
    EXPECT_EQ(study().beatMap, lost.beatMap);
    EXPECT_TRUE(window->session().recording());
    EXPECT_TRUE(window->keeping().hasUnsavedWork());
    EXPECT_TRUE(fs::exists(copy)); // until it is saved
    QSignalSpy saved(&window->session(), &DeskSession::saved);
    window->session().saveTo(in("tones.study"));
    ASSERT_TRUE(saved.wait(5000));
    EXPECT_FALSE(fs::exists(copy));
}

TEST_F(UnsavedWork, AsksNothingWhereThereIsNothingToLose) {
    open(recording());
    EXPECT_TRUE(window->close());
}

} // namespace
} // namespace earwright::ui
