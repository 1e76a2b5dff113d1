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

TEST(PlayScript, ReadsBandHoldAndBalance) {
    const auto steps = parsePlayScript(header + "0\tband\t200 2000\n1\tband\t80 160 remove\n2\tband\toff\n"
                                                "3\thold\t12.5\n4\thold\toff\n5\tbalance\t-6\n",
                                       "steps.tsv");
    ASSERT_TRUE(steps.ok()) << describe(steps.error());
    using Kind = PlayStep::Kind;
    EXPECT_EQ((*steps)[0].kind, Kind::Band);
    EXPECT_EQ((*steps)[0].band, (Band{200, 2000, false}));
    EXPECT_EQ((*steps)[1].band, (Band{80, 160, true}));
    EXPECT_EQ((*steps)[2].kind, Kind::BandOff);
    EXPECT_EQ((*steps)[3].kind, Kind::Hold);
    EXPECT_DOUBLE_EQ((*steps)[3].value, 12.5);
    EXPECT_EQ((*steps)[4].kind, Kind::HoldOff);
    EXPECT_EQ((*steps)[5].kind, Kind::Balance);
    EXPECT_DOUBLE_EQ((*steps)[5].value, -6);
}

TEST(PlayScript, PutsStepsInOrderOfTime) {
    const auto steps = parsePlayScript(header + "2\tpause\t\n1\tplay\t\n", "steps.tsv");
    ASSERT_TRUE(steps.ok());
    EXPECT_EQ((*steps)[0].kind, PlayStep::Kind::Play);
}

TEST(PlayScript, NamesTheLineOfWhatItDoesNotUnderstand) {
    for (const char* row : {"1\thover\t\n",
                            "1\tspeed\t3\n",
                            "1\tspeed\t\n",
                            "1\tspeed\tfast\n",
                            "1\tloop\t5\n",
                            "1\tloop\t5 4\n",
                            "1\tplay\t7\n",
                            "x\tplay\t\n",
                            "-1\tplay\t\n",
                            "1\t\t\n",
                            "1\tseek\t-2\n",
                            "1\tcents\t101\n",
                            "1\tplay\t\t\n",
                            "1\tband\t200\n",
                            "1\tband\t300 200\n",
                            "1\tband\t5 200\n",
                            "1\tband\t200 300 keep\n",
                            "1\thold\t\n",
                            "1\thold\t-1\n",
                            "1\tbalance\t13\n",
                            "1\tfocus\tmiddle\n",
                            "1\tfocus\t\n",
                            "1\tfocus\tleft right\n"}) {
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
