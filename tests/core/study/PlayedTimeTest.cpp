#include "core/study/PlayedTime.h"

#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>
#include <utility>

namespace earwright {
namespace {

/// Two bars in eighths that swing two to one.
Study swungAt(double beatsAMinute) {
    Study study = eightBarsAt120();
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(8), Seconds(8 * 60 / beatsAMinute)}});
    return setSwing(std::move(study), Beats(0), Swing{2, 8});
}

TEST(PlayedTime, IsTheBeatMapsWhereNothingSwings) {
    const Study study = eightBarsAt120();
    for (int thirds = -9; thirds < 40; ++thirds)
        EXPECT_EQ(playedTime(study, Beats(thirds, 3)), study.beatMap.seconds(Beats(thirds, 3)));
}

TEST(PlayedTime, SwingsSixteenthsWithinTheirEighth) {
    const Study study = setSwing(eightBarsAt120(), Beats(0), Swing{3, 16});
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(5, 4)), 1.375) << "three quarters of the first eighth";
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(3, 2)), 1.5) << "eighths stay even";
}

TEST(PlayedTime, LeavesABeatThatIsDividedInThreesAlone) {
    Study study = setSwing(eightBarsAt120(), Beats(0), Swing{2, 8});
    EXPECT_GT(playedBeat(study, Beats(5, 2)), 2.6);
    study = setDivision(study, 2, BeatDivision::Six);
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(5, 2)), 2.5) << "the fourth note of a sextuplet";
}

TEST(PlayedTime, SwingsNothingWhereThreeEighthsAreCountedAsOne) {
    Study study = meterFrom(setSwing(eightBarsAt120(), Beats(0), Swing{2, 8}), 2, Meter{6, 8});
    study = setDivision(study, 4, BeatDivision::Two);
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(19, 4)), 4.75) << "a duplet";
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(6)), 6) << "the second eighth of three";
}

TEST(PlayedTime, CountsPairsFromTheBarLine) {
    // One bar of 3/8, so that bar 3 begins on half a quarter: its first pair is 11/2 to 13/2.
    Study study = meterFrom(eightBarsAt120(), 2, Meter{3, 8});
    study = setSwing(meterFrom(study, 3, Meter{4, 4}), Beats(0), Swing{2, 8});
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(11, 2)), 5.5);
    EXPECT_NEAR(playedBeat(study, Beats(6)), 5.5 + 2.0 / 3, 1e-12);
}

TEST(PlayedTime, NeverChangesTheOrder) {
    const Study study = setSwing(eightBarsAt120(), Beats(0), Swing{4, 8});
    for (int eighths = -8; eighths < 64; ++eighths)
        EXPECT_LT(playedTime(study, Beats(eighths, 8)), playedTime(study, Beats(eighths + 1, 8)));
}

TEST(WrittenPlace, IsTheNoteThatSwingsThereCountedFromTheBarLine) {
    // One bar of 7/16, so that bar 3 begins on three quarters of a beat: its second eighth is 25/4, and lies
    // on no eighth that is counted from bar 1.
    Study study = meterFrom(eightBarsAt120(), 2, Meter{7, 16});
    study = setSwing(meterFrom(study, 3, Meter{4, 4}), Beats(0), Swing{2, 8});
    for (const Beats& written : {Beats(1, 2), Beats(3), Beats(23, 4), Beats(25, 4), Beats(27, 4)})
        EXPECT_EQ(writtenPlace(study, playedTime(study, written) + Seconds(0.02), 12), written);
    EXPECT_EQ(writtenPlace(study, study.beatMap.seconds(Beats(5, 4)), 12), Beats(5, 4)) << "not an eighth";
}

TEST(WrittenPlace, StaysWhereTheBeatIsDividedSoThatItDoesNotSwing) {
    const Study study = setDivision(swungAt(220), 2, BeatDivision::Three);
    for (const Beats& written : {Beats(7, 3), Beats(8, 3)})
        EXPECT_EQ(writtenPlace(study, playedTime(study, written), 12), written);
}

TEST(WrittenPlace, IsTheNearerOfTwoNotesThatAreBothNear) {
    const Study study = swungAt(300);
    EXPECT_EQ(writtenPlace(study, playedTime(study, Beats(3)) - Seconds(0.02), 12), Beats(3));
    EXPECT_EQ(writtenPlace(study, playedTime(study, Beats(5, 2)) + Seconds(0.02), 12), Beats(5, 2));
}

TEST(WrittenPlace, IsTheNearestPartOfABeatWhereNothingSwings) {
    const Study study = eightBarsAt120();
    EXPECT_EQ(writtenPlace(study, study.beatMap.secondsAt(2.35), 12), Beats(7, 3));
    EXPECT_EQ(writtenPlace(study, study.beatMap.secondsAt(2.35), 2), Beats(5, 2));
}

TEST(SoundingLength, IsHalfForStaccatoAndLongForWhatRings) {
    Phrasing phrasing;
    EXPECT_EQ(soundingLength(phrasing, Seconds(0.8)), Seconds(0.8));
    phrasing.staccato = true;
    EXPECT_EQ(soundingLength(phrasing, Seconds(0.8)), Seconds(0.4));
    phrasing = {};
    phrasing.letRing = true;
    EXPECT_EQ(soundingLength(phrasing, Seconds(0.8)), Seconds(3));
    EXPECT_EQ(soundingLength(phrasing, Seconds(5)), Seconds(5)) << "never shorter than it is written";
}

} // namespace
} // namespace earwright
