#include "core/study/StudyFile.h"
#include "tests/app/BatchRun.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <filesystem>
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
    for (const std::string kind : {".musicxml", ".mxl", ".mid"}) {
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

TEST(ConvertCommand, TakesThePartThatIsAskedFor) {
    const TemporaryFolder folder;
    const auto part = [](const std::string& id, const std::string& step) {
        return "<part id=\"" + id + "\"><measure><note><pitch><step>" + step +
               "</step><octave>4</octave></pitch><duration>1</duration></note></measure></part>";
    };
    fill(folder / "duo.musicxml",
         "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
         "<score-part id=\"b\"><part-name>Bass</part-name></score-part></part-list>" +
             part("a", "C") + part("b", "G") + "</score-partwise>");
    const auto pitchOf = [&](const std::vector<std::string>& more) {
        std::vector<std::string> words{"convert", (folder / "duo.musicxml").string(),
                                       (folder / "line.study").string()};
        words.insert(words.end(), more.begin(), more.end());
        const BatchRun run(words);
        EXPECT_EQ(run.exitCode, 0) << run.errors;
        EXPECT_NE(run.errors.find("another part was left out"), std::string::npos);
        const auto study = StudyFile::read(folder / "line.study");
        return study && !study->notes.empty() ? study->notes.front().pitch.midi : 0;
    };
    EXPECT_EQ(pitchOf({}), 60);
    EXPECT_EQ(pitchOf({"--part", "2"}), 67);
    EXPECT_EQ(pitchOf({"--part", "bass"}), 67);
    const std::string out = (folder / "none.study").string();
    const BatchRun none({"convert", (folder / "duo.musicxml").string(), out, "--part", "Oboe"});
    EXPECT_EQ(none.exitCode, 1);
    EXPECT_NE(none.errors.find("1 Horn, 2 Bass"), std::string::npos);
    EXPECT_FALSE(std::filesystem::exists(out));
    const BatchRun ours({"convert", (folder / "line.study").string(), out, "--part", "1"});
    EXPECT_EQ(ours.exitCode, 2);
}

TEST(ConvertCommand, WritesMusicXmlForWhoReadsIt) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const auto page = [&](const std::vector<std::string>& more) {
        std::vector<std::string> words{"convert", (folder / "line.study").string(),
                                       (folder / "a.musicxml").string()};
        words.insert(words.end(), more.begin(), more.end());
        EXPECT_EQ(BatchRun(words).exitCode, 0);
        return contentOf(folder / "a.musicxml");
    };
    const auto has = [](const std::string& text, const char* word) {
        return text.find(word) != std::string::npos;
    };
    EXPECT_TRUE(has(page({}), "<fret>"));
    EXPECT_FALSE(has(page({}), "<transpose>"));
    EXPECT_FALSE(has(page({"--tab", "none"}), "<fret>"));
    EXPECT_TRUE(has(page({"--tab", "part"}), "<staff-tuning line=\"1\">"));
    EXPECT_TRUE(has(page({"--reading", "b-flat"}), "<chromatic>-2</chromatic>"));
    const std::string tenor = page({"--reading", "tenor"});
    EXPECT_TRUE(has(tenor, "<chromatic>-2</chromatic>") && has(tenor, "<octave-change>-1</octave-change>"));
    EXPECT_TRUE(has(page({"--under", "degrees"}), "<lyric>"));
    for (const char* option : {"--reading", "--under", "--tab", "--swing", "--tempo", "--rhythm"})
        EXPECT_EQ(BatchRun({"convert", (folder / "line.study").string(), (folder / "b.musicxml").string(),
                            option, "sideways"})
                      .exitCode,
                  2);
}

TEST(ConvertCommand, RefusesOtherKindsMissingStudiesAndItsOwnInput) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const std::string before = contentOf(folder / "line.study");
    const BatchRun other({"convert", (folder / "line.study").string(), (folder / "a.pdf").string()});
    EXPECT_EQ(other.exitCode, 2);
    EXPECT_EQ(other.errors, "earwright-batch: " + (folder / "a.pdf").string() +
                                " ends in none of .musicxml, .mxl and .mid, the kinds that other programs "
                                "read. A study ends in .study.\n");
    EXPECT_EQ(BatchRun({"convert", (folder / "none.study").string(), (folder / "a.mid").string()}).exitCode,
              1);
    const BatchRun over({"convert", (folder / "line.study").string(), (folder / "line.study").string()});
    EXPECT_EQ(over.exitCode, 2);
    EXPECT_NE(over.errors.find("line.study"), std::string::npos);
    EXPECT_EQ(contentOf(folder / "line.study"), before);
    EXPECT_EQ(folder.count(), 1u);
}

TEST(ConvertCommand, WritesAsPlayedOnlyAStudyAndOnlyAsMidi) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "line.study").ok());
    const std::string study = (folder / "line.study").string();
    const std::string midi = (folder / "line.mid").string();
    EXPECT_EQ(BatchRun({"convert", study, (folder / "a.musicxml").string(), "--as-played"}).exitCode, 2);
    ASSERT_EQ(BatchRun({"convert", study, midi}).exitCode, 0);
    EXPECT_EQ(BatchRun({"convert", midi, (folder / "b.mid").string(), "--as-played"}).exitCode, 2);
    // Its recording is not there to be listened to.
    const BatchRun run({"convert", study, (folder / "c.mid").string(), "--as-played"});
    EXPECT_EQ(run.exitCode, 1);
    EXPECT_FALSE(run.errors.empty());
    EXPECT_FALSE(std::filesystem::exists(folder / "c.mid"));
}

} // namespace
} // namespace earwright
