#include "core/engine/TimeTags.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(TimeTags, FollowTheSpeed) {
    const TimeTags tags(1000, 0.5, std::nullopt, 0);
    EXPECT_DOUBLE_EQ(tags.placeAt(0), 1000);
    EXPECT_DOUBLE_EQ(tags.placeAt(500), 1250);
    EXPECT_EQ(tags.laneFrameOf(250), 500);
    EXPECT_EQ(tags.laneFrameOf(250.1), 501);
}

TEST(TimeTags, ReturnToTheSameFrameAfterTenThousandPassesAtEverySpeed) {
    const Range<Frames> loop{Frames(44100), Frames(44100 + 2205)};
    for (const double speed : {0.1, 0.25, 0.37, 0.5, 0.9, 1.0, 1.37, 2.0}) {
        const TimeTags tags(44100, speed, loop, 0);
        for (const std::int64_t pass : {1, 2, 999, 10000}) {
            const std::int64_t frame = tags.laneFrameOf(tags.passEnd(pass - 1));
            EXPECT_EQ(tags.passAt(frame), pass) << speed;
            EXPECT_EQ(tags.passAt(frame - 1), pass - 1) << speed;
            // The first output frame of a pass lies within one output frame behind A.
            EXPECT_GE(tags.placeAt(frame), 44100.0);
            EXPECT_LT(tags.placeAt(frame), 44100.0 + speed + 1e-6);
        }
    }
}

TEST(TimeTags, EnterTheLoopFromBeforeAndStayOutsideBehind) {
    const Range<Frames> loop{Frames(100), Frames(200)};
    const TimeTags before(0, 1, loop, 0);
    EXPECT_DOUBLE_EQ(before.placeAt(199), 199);
    EXPECT_DOUBLE_EQ(before.placeAt(200), 100);
    EXPECT_EQ(before.passAt(200), 1);
    const TimeTags behind(200, 1, loop, 0);
    EXPECT_FALSE(behind.isLooped());
    EXPECT_DOUBLE_EQ(behind.placeAt(500), 700);
}

TEST(TimeTags, GoAlongInFramesOfAnotherSoundWithTheSamePasses) {
    // A take played at 0.55, whose frame 0 belongs to recording frame 43000: 4009.09… frames a pass.
    const Range<Frames> loop{Frames(44100), Frames(44100 + 2205)};
    const TimeTags tags(44100, 0.5, loop, 3, 700);
    const TimeTags take = tags.inFramesOf(43000, 0.55, 200);
    EXPECT_NEAR(take.placeAt(200), 2000, 1e-9);
    EXPECT_NEAR(take.placeAt(0), 2000 - 200 * 0.5 / 0.55, 1e-9) << "begun earlier";
    for (const std::int64_t pass : {0, 1, 999, 10000}) {
        const std::int64_t end = tags.laneFrameOf(tags.passEnd(pass));
        EXPECT_EQ(take.laneFrameOf(take.passEnd(pass)), end - 700 + 200) << pass;
        EXPECT_NEAR(take.placeAt(end - 500), 2000 + (tags.placeAt(end) - 44100) / 0.55, 1e-4) << pass;
    }
}

TEST(TimeTags, GoOnCountingPassesWhereALaneGoesOn) {
    const TimeTags tags(150, 1, Range{Frames(100), Frames(200)}, 7);
    EXPECT_EQ(tags.passAt(49), 7);
    EXPECT_EQ(tags.passAt(50), 8);
    EXPECT_EQ(tags.passAt(250), 10);
}

} // namespace
} // namespace earwright
