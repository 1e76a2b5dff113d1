#include "core/engine/PassSpeeds.h"

#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

std::vector<double> speedsFrom(const PassSpeeds& speeds, std::int64_t first, int count) {
    std::vector<double> all;
    for (std::int64_t pass = first; pass < first + count; ++pass)
        all.push_back(speeds.speedOf(pass));
    return all;
}

PassSpeeds climbing(const Climb& climb, double from) {
    PassSpeeds speeds;
    speeds.set(from);
    speeds.setManner({0, climb, {}, {}});
    return speeds;
}

using Speeds = std::vector<double>;

TEST(PassSpeeds, AreTheSpeedSetWithoutAClimb) {
    PassSpeeds speeds;
    speeds.set(0.35);
    EXPECT_EQ(speedsFrom(speeds, 0, 3), (Speeds{0.35, 0.35, 0.35}));
    speeds.climbBack();
    EXPECT_EQ(speeds.speedOf(3), 0.35);
}

TEST(PassSpeeds, ClimbEverySoManyPassesUpToTheTarget) {
    const PassSpeeds speeds = climbing({10, 2, 65}, 0.5);
    EXPECT_EQ(speedsFrom(speeds, 0, 7), (Speeds{0.5, 0.5, 0.6, 0.6, 0.65, 0.65, 0.65}));
}

TEST(PassSpeeds, CountEachPassOnceHoweverOftenItIsHeard) {
    PassSpeeds speeds = climbing({10, 2, 100}, 0.5);
    for (const std::int64_t pass : {0, 0, 1, 1, 1, 2, 2, 3})
        speeds.hear(pass);
    EXPECT_EQ(speedsFrom(speeds, 3, 3), (Speeds{0.6, 0.7, 0.7}));
}

TEST(PassSpeeds, KeepTheirRoundsWhenPassesAreNumberedAnew) {
    PassSpeeds speeds = climbing({10, 2, 100}, 0.5);
    speeds.hear(3);
    speeds.renumber(0); // a seek
    EXPECT_EQ(speedsFrom(speeds, 0, 2), (Speeds{0.6, 0.7}));
}

TEST(PassSpeeds, GoOnFromASpeedChosenByHandWithRoundsCountedAnew) {
    PassSpeeds speeds = climbing({10, 2, 100}, 0.5);
    speeds.hear(3);
    speeds.set(0.35);
    EXPECT_EQ(speedsFrom(speeds, 3, 3), (Speeds{0.35, 0.35, 0.45}));
}

TEST(PassSpeeds, FallBackAStepAndCountAnew) {
    PassSpeeds speeds = climbing({10, 2, 100}, 0.5);
    speeds.hear(5);
    EXPECT_EQ(speeds.reachedAt(5), 0.7);
    speeds.climbBack();
    EXPECT_EQ(speedsFrom(speeds, 5, 3), (Speeds{0.6, 0.6, 0.7}));
}

TEST(PassSpeeds, StartAnotherClimbFromWhatTheyReached) {
    PassSpeeds speeds = climbing({10, 1, 100}, 0.5);
    speeds.hear(2);
    speeds.setManner({2, Climb{10, 1, 100}, {}, {}});
    EXPECT_EQ(speeds.speedOf(3), 0.8) << "a gap does not disturb the climb";
    speeds.setManner({2, Climb{5, 2, 100}, {}, {}});
    EXPECT_EQ(speedsFrom(speeds, 2, 3), (Speeds{0.7, 0.7, 0.75}));
    speeds.setManner({});
    EXPECT_EQ(speedsFrom(speeds, 2, 2), (Speeds{0.7, 0.7})) << "switched off, the speed stays";
}

TEST(PassSpeeds, CountAnewOverAnotherLoop) {
    PassSpeeds speeds = climbing({10, 2, 100}, 0.5);
    speeds.hear(3);
    speeds.restartRounds();
    speeds.renumber(0);
    EXPECT_EQ(speedsFrom(speeds, 0, 3), (Speeds{0.6, 0.6, 0.7}));
}

TEST(PassSpeeds, TakeRecordAndYoursTogetherAsARoundInTrade) {
    PassSpeeds speeds = climbing({10, 1, 200}, 0.5);
    speeds.setTrade(0);
    EXPECT_EQ(speedsFrom(speeds, 0, 5), (Speeds{0.5, 0.5, 0.6, 0.6, 0.7}));
    speeds.hear(3); // on the written notes
    EXPECT_EQ(speedsFrom(speeds, 3, 3), (Speeds{0.6, 0.7, 0.7}));
    EXPECT_TRUE(speeds.isYoursTurn(3));
    EXPECT_FALSE(speeds.isYoursTurn(4));
    // Trade that begins with this pass: it is the record's.
    speeds.setTrade(3);
    EXPECT_EQ(speedsFrom(speeds, 3, 3), (Speeds{0.6, 0.6, 0.7}));
}

TEST(PassSpeeds, GiveEachTurnOfTheTradeItsOwn) {
    PassSpeeds speeds;
    speeds.set(0.5);
    speeds.setManner({0, {}, 1.0, 0.25});
    EXPECT_EQ(speedsFrom(speeds, 0, 2), (Speeds{0.5, 0.5})) << "no trade, no turns";
    speeds.setTrade(1);
    EXPECT_EQ(speedsFrom(speeds, 1, 4), (Speeds{1.0, 0.25, 1.0, 0.25}));
}

TEST(PassSpeeds, ClimbInTheTurnWithoutASpeedOfItsOwn) {
    PassSpeeds speeds = climbing({10, 1, 100}, 0.5);
    speeds.setManner({0, Climb{10, 1, 100}, 1.0, {}});
    speeds.setTrade(0);
    EXPECT_EQ(speedsFrom(speeds, 0, 6), (Speeds{1.0, 0.5, 1.0, 0.6, 1.0, 0.7}));
}

} // namespace
} // namespace earwright
