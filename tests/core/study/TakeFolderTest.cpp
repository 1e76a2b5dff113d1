#include "core/study/TakeFolder.h"

#include "core/study/TakeEdits.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

namespace fs = std::filesystem;

TEST(TakeFolder, LiesBesideTheStudyAndIsNamedAfterIt) {
    EXPECT_EQ(takeFolderOf("/music/slow blues.study"), fs::path("/music/slow blues.takes"));
}

TEST(TakeFolder, GivesEachRecordingAFileOfItsOwn) {
    const TemporaryFolder folder;
    const std::string moment = "2031-05-04T18:22:07Z";
    EXPECT_EQ(freshTakeFile(folder / "", moment), "2031-05-04 18.22.07.wav");
    fill(folder / "2031-05-04 18.22.07.wav", "x");
    EXPECT_EQ(freshTakeFile(folder / "", moment), "2031-05-04 18.22.07 2.wav");
}

TEST(TakeFolder, GoesAlongWhenTheStudyGetsAnotherName) {
    const TemporaryFolder folder;
    Study study = fullStudy();
    study.takes[1].file = "gone.wav";
    fs::create_directories(folder / "old.takes");
    fill(folder / "old.takes" / study.takes[0].file, "sound");
    fill(folder / "old.takes" / "of no take.wav", "x");
    ASSERT_TRUE(bringTakes(study, folder / "old.takes", folder / "new.takes").ok());
    EXPECT_EQ(fs::file_size(folder / "new.takes" / study.takes[0].file), 5u);
    EXPECT_TRUE(fs::exists(folder / "old.takes" / study.takes[0].file)) << "the old study keeps its own";
    EXPECT_FALSE(fs::exists(folder / "new.takes" / "of no take.wav"));
    EXPECT_TRUE(bringTakes(study, folder / "old.takes", folder / "new.takes").ok()) << "twice is no harm";
}

TEST(TakeFolder, SaysWhichFileCannotBeBrought) {
    const TemporaryFolder folder;
    const Study study = fullStudy();
    fs::create_directories(folder / "old.takes");
    fill(folder / "old.takes" / study.takes[0].file, "sound");
    fill(folder / "in the way", "x");
    const auto outcome = bringTakes(study, folder / "old.takes", folder / "in the way" / "new.takes");
    ASSERT_FALSE(outcome.ok());
    EXPECT_EQ(outcome.error().kind, ErrorKind::NotWritable);
    EXPECT_NE(outcome.error().message.find(study.takes[0].file), std::string::npos);
}

} // namespace
} // namespace earwright
