#include "core/study/StudyFile.h"
#include "tests/app/BatchRun.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using tests::BatchRun;

TEST(ConvertCommand, WritesTheKindThatTheNameSays) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const std::string study = (folder / "line.study").string();
    EXPECT_EQ(BatchRun({"convert", study, (folder / "a.musicxml").string()}).exitCode, 0);
    EXPECT_EQ(BatchRun({"convert", study, (folder / "a.mid").string()}).exitCode, 0);
    EXPECT_NE(contentOf(folder / "a.musicxml").find("<score-partwise version=\"4.0\">"), std::string::npos);
    EXPECT_TRUE(contentOf(folder / "a.mid").starts_with("MThd"));
    EXPECT_EQ(folder.count(), 3u);
}

TEST(ConvertCommand, RefusesOtherKindsMissingStudiesAndItsOwnInput) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.mid").ok());
    const std::string before = contentOf(folder / "line.mid");
    EXPECT_EQ(BatchRun({"convert", (folder / "line.mid").string(), (folder / "a.pdf").string()}).exitCode, 2);
    EXPECT_EQ(BatchRun({"convert", (folder / "none.study").string(), (folder / "a.mid").string()}).exitCode,
              1);
    const BatchRun over({"convert", (folder / "line.mid").string(), (folder / "line.mid").string()});
    EXPECT_EQ(over.exitCode, 2);
    EXPECT_NE(over.errors.find("line.mid"), std::string::npos);
    EXPECT_EQ(contentOf(folder / "line.mid"), before);
    EXPECT_EQ(folder.count(), 1u);
}

} // namespace
} // namespace earwright
