#include "app/batch/PlayScript.h"

#include "core/study/StudyFile.h"
#include "tests/core/sound/WrittenFile.h"

#include <gtest/gtest.h>

namespace earwright::batch {
namespace {

const std::string header = "at_s\tcommand\tvalue\n";

std::string nameOf(const PlayStep& step) {
    return step.verb->name;
}

TEST(PlayScript, ReadsEveryCommand) {
    const auto steps = parsePlayScript(header + "0\tplay\t\n"
                                                "0.5\tspeed\t0.5\n"
                                                "1\tloop\t12 18.5\n"
                                                "2\tloop\toff\n"
                                                "2.5\tseek\t3\n"
                                                "3\tsemitones\t-5\n"
                                                "3\tcents\t25\n"
                                                "4\tpause\n"
                                                "5\tquit\n",
                                       "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    ASSERT_EQ(steps->size(), 9u);
    EXPECT_EQ(nameOf((*steps)[0]), "play");
    EXPECT_EQ(nameOf((*steps)[2]), "loop");
    EXPECT_EQ((*steps)[2].numbers, (std::vector<double>{12, 18.5}));
    EXPECT_EQ((*steps)[3].word, "off");
    EXPECT_EQ((*steps)[5].numbers, std::vector<double>{-5});
    EXPECT_TRUE((*steps)[8].verb->quits);
    EXPECT_DOUBLE_EQ((*steps)[8].at, 5);
}

TEST(PlayScript, ReadsEveryWayALoopGoesRound) {
    const auto steps = parsePlayScript(header + "0\tgap\t4\n"
                                                "1\tcountin\t8\n"
                                                "2\tclicks\ton\n"
                                                "3\tclimb\t5 4 100\n"
                                                "4\tclimbback\n"
                                                "5\tclimb\toff\n"
                                                "6\ttradespeeds\t1 0.5\n"
                                                "7\ttradespeeds\toff\n",
                                       "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    ASSERT_EQ(steps->size(), 8u);
    EXPECT_EQ((*steps)[0].numbers, std::vector<double>{4});
    EXPECT_EQ((*steps)[2].word, "on");
    EXPECT_EQ((*steps)[3].numbers, (std::vector<double>{5, 4, 100}));
    EXPECT_EQ(nameOf((*steps)[4]), "climbback");
    EXPECT_EQ((*steps)[5].word, "off");
    EXPECT_EQ((*steps)[6].numbers, (std::vector<double>{1, 0.5}));
}

TEST(PlayScript, ReadsEveryChoiceOfWhatIsHeard) {
    for (const char* way : {"record", "yours", "together", "split", "trade"}) {
        const auto steps = parsePlayScript(header + "0\thear\t" + way + "\n", "steps.tsv");
        ASSERT_TRUE(steps.ok()) << describe(steps.error());
        EXPECT_EQ(steps->front().word, way);
    }
    for (const char* part : {"all", "left", "right", "centre", "sides"}) {
        const auto steps = parsePlayScript(header + "0\tfocus\t" + part + "\n", "steps.tsv");
        ASSERT_TRUE(steps.ok()) << describe(steps.error());
        EXPECT_EQ(steps->front().word, part);
    }
}

TEST(PlayScript, ReadsATakeWithItsFilePlaceAndSpeed) {
    const auto steps = parsePlayScript(header + "0\ttake\tmy take 2.wav 12.5 0.5\n"
                                                "1\ttake\toff\n"
                                                "2\trecord\tsecond try.wav\n"
                                                "3\trecord\toff\n",
                                       "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    ASSERT_EQ(steps->size(), 4u);
    EXPECT_EQ((*steps)[0].file, "my take 2.wav");
    EXPECT_EQ((*steps)[0].numbers, (std::vector<double>{12.5, 0.5}));
    EXPECT_EQ((*steps)[1].word, "off");
    EXPECT_TRUE((*steps)[1].file.empty());
    EXPECT_EQ((*steps)[2].file, "second try.wav");
    EXPECT_EQ((*steps)[3].word, "off");
    for (const char* value : {"", "my.wav", "my.wav 3", "3 1", "my.wav 3 5", "my.wav -1 1", "my.wav x 1"})
        EXPECT_FALSE(parsePlayScript(header + "0\ttake\t" + value + "\n", "steps.tsv").ok()) << value;
    EXPECT_FALSE(parsePlayScript(header + "0\trecord\t\n", "steps.tsv").ok());
}

TEST(PlayScript, TakesTheNotesOfAStudy) {
    const tests::ScratchFolder folder;
    const std::filesystem::path file = folder / "two words.study";
    Study study;
    study.title = "Slow blues";
    ASSERT_TRUE(StudyFile::write(study, file).ok());
    const auto steps = parsePlayScript(header + "0\tnotes\t" + file.string() + "\n", "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    ASSERT_TRUE(steps->front().study);
    EXPECT_EQ(steps->front().study->title, "Slow blues");
    EXPECT_FALSE(steps->front().verb->isAsPlayed);
    const auto played = parsePlayScript(header + "0\tplayed\t" + file.string() + "\n", "steps.tsv");
    ASSERT_TRUE(played.ok()) << describe(played.error());
    EXPECT_TRUE(played->front().verb->isAsPlayed);
    EXPECT_EQ(played->front().study->title, "Slow blues");
    const auto missing = parsePlayScript(header + "0\tnotes\tnothing.study\n", "steps.tsv");
    ASSERT_FALSE(missing.ok());
    EXPECT_NE(describe(missing.error()).find("nothing.study"), std::string::npos);
}

TEST(PlayScript, ReadsBandHoldAndBalance) {
    const auto steps = parsePlayScript(header + "0\tband\t200 2000\n1\tband\t80 160 remove\n2\tband\toff\n"
                                                "3\thold\t12.5\n4\thold\toff\n5\tbalance\t-6\n",
                                       "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    EXPECT_EQ(nameOf((*steps)[0]), "band");
    EXPECT_EQ((*steps)[0].numbers, (std::vector<double>{200, 2000}));
    EXPECT_EQ((*steps)[0].word, "");
    EXPECT_EQ((*steps)[1].numbers, (std::vector<double>{80, 160}));
    EXPECT_EQ((*steps)[1].word, "remove");
    EXPECT_EQ((*steps)[2].word, "off");
    EXPECT_EQ((*steps)[3].numbers, std::vector<double>{12.5});
    EXPECT_EQ((*steps)[4].word, "off");
    EXPECT_EQ((*steps)[5].numbers, std::vector<double>{-6});
}

TEST(PlayScript, PutsStepsInOrderOfTime) {
    const auto steps = parsePlayScript(header + "2\tpause\t\n1\tplay\t\n", "steps.tsv");
    ASSERT_TRUE(steps.ok());
    EXPECT_EQ(nameOf((*steps)[0]), "play");
}

TEST(PlayScript, NamesTheLineOfWhatItDoesNotUnderstand) {
    for (const char* row : {"1\thover\t\n",          "1\tspeed\t3\n",
                            "1\tspeed\t\n",          "1\tspeed\tfast\n",
                            "1\tloop\t5\n",          "1\tloop\t5 4\n",
                            "1\tplay\t7\n",          "x\tplay\t\n",
                            "-1\tplay\t\n",          "1\t\t\n",
                            "1\tseek\t-2\n",         "1\tcents\t101\n",
                            "1\tplay\t\t\n",         "1\tfocus\tmiddle\n",
                            "1\tfocus\t\n",          "1\tfocus\tleft right\n",
                            "1\tband\t200\n",        "1\tband\t300 200\n",
                            "1\tband\t5 200\n",      "1\tband\t200 300 keep\n",
                            "1\thold\t\n",           "1\thold\t-1\n",
                            "1\tbalance\t13\n",      "1\tgap\t5\n",
                            "1\tgap\t1.5\n",         "1\tgap\t\n",
                            "1\tcountin\t9\n",       "1\tclicks\tloud\n",
                            "1\tclimb\t5 4\n",       "1\tclimb\t0 4 100\n",
                            "1\tclimbback\t2\n",     "1\ttradespeeds\t1\n",
                            "1\ttradespeeds\t1 3\n", "1\thear\tboth\n",
                            "1\tnotes\t\n",          "1\tnotes\tnothing.study\n"}) {
        const auto steps = parsePlayScript(header + "0\tplay\t\n" + row, "steps.tsv");
        ASSERT_FALSE(steps.ok()) << row;
        EXPECT_EQ(steps.error().kind, ErrorKind::Malformed) << row;
        EXPECT_NE(describe(steps.error()).find("line 3"), std::string::npos) << describe(steps.error());
    }
}

TEST(PlayScript, NeedsItsColumns) {
    EXPECT_FALSE(parsePlayScript("at_s\tcommand\n0\tplay\n", "steps.tsv").ok());
}

} // namespace
} // namespace earwright::batch
