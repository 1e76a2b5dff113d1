#include "ui/desk/TakeKeeping.h"

#include "tests/ui/Soon.h"
#include "tests/ui/desk/GeneratedRecording.h"

#include <QSignalSpy>
#include <QTemporaryDir>

#include <fstream>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

namespace fs = std::filesystem;

class TakeKeepingTest : public testing::Test {
protected:
    void SetUp() override {
        writeRecording(in("tones.wav"), 2, {{0.5, 0.5, 60}});
        writeRecording(in("other.wav"), 2, {{0.5, 0.5, 62}});
        open(in("tones.wav"));
    }
    void open(const fs::path& path) {
        QSignalSpy opened(&session, &DeskSession::opened);
        session.open(path);
        ASSERT_TRUE(soon([&] { return !opened.isEmpty(); }));
    }
    fs::path in(const char* name) const { return fs::path(folder.path().toStdString()) / name; }
    static DeskSession::Options silently(const fs::path& unsaved) {
        DeskSession::Options options;
        options.engine.openDevice = false;
        options.unsavedWork = unsaved;
        return options;
    }
    /// The sound of a recording, kept where the study keeps its takes.
    void record(const char* file) {
        fs::create_directories(session.takeFolder());
        std::ofstream(session.takeFolder() / file) << "sound";
    }
    static std::vector<Take> passesOf(const char* file, const char* moment, std::size_t count) {
        std::vector<Take> takes(count);
        for (std::size_t i = 0; i < count; ++i) {
            takes[i].file = file;
            takes[i].part = {Frames(static_cast<std::int64_t>(i) * 1000),
                             Frames(static_cast<std::int64_t>(i) * 1000 + 900)};
            takes[i].recorded = moment;
        }
        takes.back().chosen = true;
        return takes;
    }

    QTemporaryDir folder;
    DeskSession session{silently(in("unsaved"))};
    MessageBar messages;
    TakeKeeping keeping{session, messages};
};

TEST_F(TakeKeepingTest, PutsTakesOnTheListInOneStepToUndo) {
    keeping.keep(passesOf("one.wav", "2031-05-04T18:22:07Z", 3), session.takeFolder());
    ASSERT_TRUE(soon([&] { return session.study().takes.size() == 3; }));
    EXPECT_TRUE(session.study().takes[2].chosen);
    EXPECT_TRUE(messages.sentence("notice").contains("3 takes are kept"));
    session.undo();
    EXPECT_TRUE(session.study().takes.empty());
}

TEST_F(TakeKeepingTest, KeepsARecordingThatEndsWhileAnotherIsBeingKept) {
    keeping.keep(passesOf("one.wav", "2031-05-04T18:22:07Z", 2), session.takeFolder());
    keeping.keep(passesOf("two.wav", "2031-05-04T18:23:11Z", 1), session.takeFolder());
    ASSERT_TRUE(soon([&] { return session.study().takes.size() == 3; }));
    const auto& takes = session.study().takes;
    ASSERT_EQ(takes.size(), 3u);
    EXPECT_EQ(takes[0].recorded, "2031-05-04T18:22:07Z");
    EXPECT_EQ(takes[1].recorded, "2031-05-04T18:22:07Z");
    EXPECT_EQ(takes[2].recorded, "2031-05-04T18:23:11Z");
    EXPECT_EQ(takes[2].file, "two.wav");
    EXPECT_TRUE(takes[2].chosen);
}

TEST_F(TakeKeepingTest, BringsTheSoundToWhereTheStudyIsSavedMeanwhile) {
    record("one.wav");
    const fs::path before = session.takeFolder();
    QSignalSpy saved(&session, &DeskSession::saved);
    session.saveTo(in("evening.study"));
    ASSERT_TRUE(soon([&] { return !saved.isEmpty(); }));
    keeping.keep(passesOf("one.wav", "2031-05-04T18:22:07Z", 1), before);
    ASSERT_TRUE(soon([&] { return session.study().takes.size() == 1; }));
    EXPECT_TRUE(fs::exists(in("evening.takes") / "one.wav"));
    EXPECT_EQ(session.study().takes.size(), 1u);
}

TEST_F(TakeKeepingTest, GivesNoTakeToAnotherStudyAndSaysWhereItsSoundIs) {
    keeping.keep(passesOf("one.wav", "2031-05-04T18:22:07Z", 1), session.takeFolder());
    // As when another study is there before the takes are.
    emit session.opened({});
    EXPECT_TRUE(messages.sentence("notice").contains("one.wav"));
    QTest::qWait(200);
    EXPECT_TRUE(session.study().takes.empty());
}

} // namespace
} // namespace earwright::ui
