#include "app/batch/PlayScript.h"

#include <gtest/gtest.h>

namespace earwright::batch {
namespace {

const std::string header = "at_s\tcommand\tvalue\n";

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
    using Kind = PlayStep::Kind;
    ASSERT_EQ(steps->size(), 9u);
    EXPECT_EQ((*steps)[0].kind, Kind::Play);
    EXPECT_EQ((*steps)[2].kind, Kind::Loop);
    EXPECT_DOUBLE_EQ((*steps)[2].value, 12);
    EXPECT_DOUBLE_EQ((*steps)[2].loopEnd, 18.5);
    EXPECT_EQ((*steps)[3].kind, Kind::LoopOff);
    EXPECT_DOUBLE_EQ((*steps)[5].value, -5);
    EXPECT_EQ((*steps)[8].kind, Kind::Quit);
    EXPECT_DOUBLE_EQ((*steps)[8].at, 5);
}

TEST(PlayScript, ReadsEveryFocus) {
    const auto steps = parsePlayScript(
        header + "0\tfocus\tall\n1\tfocus\tleft\n2\tfocus\tright\n3\tfocus\tcentre\n4\tfocus\tsides\n",
        "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    ASSERT_EQ(steps->size(), 5u);
    const Focus expected[] = {Focus::All, Focus::Left, Focus::Right, Focus::Centre, Focus::Sides};
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_EQ((*steps)[i].kind, PlayStep::Kind::Focus);
        EXPECT_EQ((*steps)[i].focus, expected[i]);
    }
}

TEST(PlayScript, PutsStepsInOrderOfTime) {
    const auto steps = parsePlayScript(header + "2\tpause\t\n1\tplay\t\n", "steps.tsv");
    ASSERT_TRUE(steps.ok());
    EXPECT_EQ((*steps)[0].kind, PlayStep::Kind::Play);
}

TEST(PlayScript, NamesTheLineOfWhatItDoesNotUnderstand) {
    for (const char* row : {"1\thover\t\n", "1\tspeed\t3\n", "1\tspeed\t\n", "1\tspeed\tfast\n",
                            "1\tloop\t5\n", "1\tloop\t5 4\n", "1\tplay\t7\n", "x\tplay\t\n", "-1\tplay\t\n",
                            "1\t\t\n", "1\tseek\t-2\n", "1\tcents\t101\n", "1\tplay\t\t\n",
                            "1\tfocus\tmiddle\n", "1\tfocus\t\n", "1\tfocus\tleft right\n"}) {
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
