#include "core/study/Recovery.h"

#include "core/study/StudyFile.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <chrono>
#include <csignal>
#include <gtest/gtest.h>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace earwright {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

std::shared_ptr<const Study> titled(const std::string& title) {
    Study study = eightBarsAt120();
    study.title = title;
    return std::make_shared<const Study>(study);
}

struct RecoveryCopy : testing::Test {
    TemporaryFolder folder;
    fs::path study = folder / "line.study";
    fs::path copy = folder / "line.study.recovery";
    fs::path unsaved = folder / "unsaved";

    void SetUp() override {
        ASSERT_TRUE(StudyFile::write(*titled("saved"), study).ok());
        // Saved a while ago, so that copies are newer whatever the clock of the disk.
        fs::last_write_time(study, fs::last_write_time(study) - 10s);
    }

    /// What a program leaves that stops without closing its study.
    void crashWith(const std::string& title, const fs::path& file) {
        Recovery recovery(unsaved);
        recovery.open(file);
        recovery.keep(titled(title));
    }
};

TEST_F(RecoveryCopy, ACopyFollowsEachEditWithinASecond) {
    Recovery recovery(unsaved);
    recovery.open(study);
    const auto start = std::chrono::steady_clock::now();
    for (int edit = 0; edit < 50; ++edit)
        recovery.keep(titled("edit " + std::to_string(edit)));
    const auto handedOver = std::chrono::steady_clock::now();
    recovery.finish();
    EXPECT_LT(handedOver - start, 100ms);
    EXPECT_LT(std::chrono::steady_clock::now() - start, 1s);
    EXPECT_EQ(StudyFile::read(copy)->title, "edit 49");
    EXPECT_FALSE(recovery.problem());
}

TEST_F(RecoveryCopy, LostWorkIsFoundAfterACrash) {
    EXPECT_FALSE(Recovery::lostWorkOf(study));
    crashWith("lost", study);
    const auto lost = Recovery::lostWorkOf(study);
    ASSERT_TRUE(lost);
    EXPECT_EQ(lost->study, study);
    EXPECT_EQ(StudyFile::read(lost->copy)->title, "lost");
    EXPECT_EQ(StudyFile::read(study)->title, "saved");
    Recovery::forget(*lost);
    EXPECT_FALSE(Recovery::lostWorkOf(study));
}

TEST_F(RecoveryCopy, AProgramKilledOutrightLeavesItsWorkAndNoLock) {
    const pid_t program = ::fork();
    if (program == 0) {
        Recovery recovery(unsaved);
        recovery.open(study);
        recovery.keep(titled("killed"));
        for (;;)
            ::pause();
    }
    for (int wait = 0; wait < 500 && !fs::exists(copy); ++wait)
        std::this_thread::sleep_for(10ms);
    EXPECT_TRUE(fs::exists(copy));
    ::kill(program, SIGKILL);
    ::waitpid(program, nullptr, 0);
    const auto lost = Recovery::lostWorkOf(study);
    ASSERT_TRUE(lost);
    EXPECT_EQ(StudyFile::read(lost->copy)->title, "killed");
}

TEST_F(RecoveryCopy, NothingIsLostAfterACleanClose) {
    Recovery recovery(unsaved);
    recovery.open(study);
    recovery.keep(titled("work"));
    recovery.finish();
    EXPECT_TRUE(fs::exists(copy));
    recovery.close();
    recovery.keep(titled("too late"));
    recovery.finish();
    EXPECT_FALSE(fs::exists(copy));
}

TEST_F(RecoveryCopy, SavingTakesTheCopyAwayAndTheNextEditMakesANewOne) {
    Recovery recovery(unsaved);
    recovery.open(study);
    recovery.keep(titled("one"));
    recovery.finish();
    recovery.discard();
    recovery.finish();
    EXPECT_FALSE(fs::exists(copy));
    recovery.keep(titled("two"));
    recovery.finish();
    EXPECT_EQ(StudyFile::read(copy)->title, "two");
}

TEST_F(RecoveryCopy, ACopyOlderThanTheStudyIsNoLostWork) {
    crashWith("older", study);
    fs::last_write_time(study, fs::last_write_time(copy) + 1s);
    EXPECT_FALSE(Recovery::lostWorkOf(study));
}

TEST_F(RecoveryCopy, TheCopyOfARunningProgramIsNoLostWork) {
    Recovery recovery(unsaved);
    recovery.open(study);
    recovery.keep(titled("being written"));
    recovery.finish();
    EXPECT_FALSE(Recovery::lostWorkOf(study));
}

TEST_F(RecoveryCopy, WorkThatNeverHadAFileIsFoundToo) {
    crashWith("first", {});
    crashWith("second", {});
    auto lost = Recovery::lostUnsavedWork(unsaved);
    ASSERT_EQ(lost.size(), 2u);
    EXPECT_TRUE(lost[0].study.empty());
    EXPECT_GE(lost[0].written, lost[1].written);
    for (const LostWork& work : lost)
        Recovery::forget(work);
    EXPECT_TRUE(Recovery::lostUnsavedWork(unsaved).empty());
    EXPECT_TRUE(Recovery::lostUnsavedWork(folder / "no such folder").empty());
}

TEST_F(RecoveryCopy, SavingForTheFirstTimeMovesTheCopyBesideTheFile) {
    Recovery recovery(unsaved);
    recovery.open({});
    recovery.keep(titled("unsaved"));
    recovery.finish();
    recovery.open(study);
    recovery.finish();
    recovery.keep(titled("saved since"));
    recovery.finish();
    EXPECT_TRUE(fs::is_empty(unsaved));
    EXPECT_EQ(StudyFile::read(copy)->title, "saved since");
}

TEST_F(RecoveryCopy, LostWorkNobodyLookedAtSurvivesOpeningAndClosing) {
    crashWith("lost", study);
    Recovery recovery(unsaved);
    recovery.open(study);
    recovery.close();
    recovery.finish();
    EXPECT_TRUE(Recovery::lostWorkOf(study));
}

TEST_F(RecoveryCopy, ACopyThatCannotBeWrittenIsSaidSo) {
    Recovery recovery(unsaved);
    recovery.open(folder / "no such folder" / "line.study");
    recovery.keep(titled("work"));
    recovery.finish();
    ASSERT_TRUE(recovery.problem());
    EXPECT_EQ(recovery.problem()->kind, ErrorKind::NotWritable);
}

TEST_F(RecoveryCopy, TheNewestWorkIsWrittenEvenWhenTheProgramEndsAtOnce) {
    {
        Recovery recovery(unsaved);
        recovery.open(study);
        for (int edit = 0; edit < 20; ++edit)
            recovery.keep(titled(std::to_string(edit)));
    }
    EXPECT_EQ(StudyFile::read(copy)->title, "19");
}

} // namespace
} // namespace earwright
