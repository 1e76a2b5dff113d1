#include "core/engine/RoundCount.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

class RoundCountTest : public testing::Test {
protected:
    RoundCount count;

    void hear(std::int64_t pass, bool yoursTurn = false, Hearing hearing = Hearing::Record) {
        Heard heard;
        heard.playing = true;
        heard.pass = pass;
        heard.yoursTurn = yoursTurn;
        count.hear(heard, hearing);
    }
};

TEST_F(RoundCountTest, CountsEachPassOnceHoweverOftenItIsHeard) {
    for (const std::int64_t pass : {0, 0, 0, 1, 1, 2, 2, 2})
        hear(pass);
    EXPECT_EQ(count.rounds(), 2);
}

TEST_F(RoundCountTest, CountsPassesTooShortToBeSeen) {
    hear(0);
    hear(3);
    EXPECT_EQ(count.rounds(), 3);
}

TEST_F(RoundCountTest, BeginsWithThePassThatIsUnderWay) {
    hear(7);
    hear(8);
    EXPECT_EQ(count.rounds(), 1);
}

TEST_F(RoundCountTest, KeepsItsRoundsWhenTheEngineCountsAnew) {
    for (const std::int64_t pass : {0, 1, 2, 0, 0, 1})
        hear(pass);
    EXPECT_EQ(count.rounds(), 3);
}

TEST_F(RoundCountTest, TakesRecordAndYoursTogetherAsARoundInTrade) {
    hear(0, false, Hearing::Trade);
    hear(1, true, Hearing::Trade);
    EXPECT_EQ(count.rounds(), 0);
    hear(2, false, Hearing::Trade);
    EXPECT_EQ(count.rounds(), 1);
    hear(5, true, Hearing::Trade);
    EXPECT_EQ(count.rounds(), 2);
    hear(6, false, Hearing::Trade);
    EXPECT_EQ(count.rounds(), 3);
}

TEST_F(RoundCountTest, ForgetsWhatWasHeardWhenItIsStartedAnew) {
    hear(0);
    hear(4);
    count.restart();
    EXPECT_EQ(count.rounds(), 0);
    hear(9);
    EXPECT_EQ(count.rounds(), 0);
}

} // namespace
} // namespace earwright
