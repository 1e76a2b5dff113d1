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

TEST(ConvertCommand, ReadsWhatItWrites) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const auto convert = [&](const std::string& in, const std::string& out) {
        return BatchRun({"convert", (folder / in).string(), (folder / out).string()}).exitCode;
    };
    for (const std::string kind : {".musicxml", ".mid"}) {
        ASSERT_EQ(convert("line.study", "a" + kind), 0);
        ASSERT_EQ(convert("a" + kind, "b.study"), 0) << kind;
        const auto back = StudyFile::read(folder / "b.study");
        ASSERT_TRUE(back.ok()) << describe(back.error());
        EXPECT_GE(back->notes.size(), fullStudy().notes.size()) << "ornaments may be notes of their own";
        ASSERT_EQ(convert("a" + kind, "b.musicxml"), 0);
        ASSERT_EQ(convert("b.musicxml", "c.mid"), 0);
    }
    fill(folder / "broken.mid", "MThd");
    EXPECT_EQ(convert("broken.mid", "d.study"), 1);
    EXPECT_EQ(convert("none.musicxml", "d.study"), 1);
}

TEST(ConvertCommand, RefusesOtherKindsMissingStudiesAndItsOwnInput) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const std::string before = contentOf(folder / "line.study");
    EXPECT_EQ(BatchRun({"convert", (folder / "line.study").string(), (folder / "a.pdf").string()}).exitCode,
              2);
    EXPECT_EQ(BatchRun({"convert", (folder / "none.study").string(), (folder / "a.mid").string()}).exitCode,
              1);
    const BatchRun over({"convert", (folder / "line.study").string(), (folder / "line.study").string()});
    EXPECT_EQ(over.exitCode, 2);
    EXPECT_NE(over.errors.find("line.study"), std::string::npos);
    EXPECT_EQ(contentOf(folder / "line.study"), before);
    EXPECT_EQ(folder.count(), 1u);
}

} // namespace
} // namespace earwright
