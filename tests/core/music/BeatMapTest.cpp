#include "core/music/BeatMap.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

const MeterMap fourFour(Meter{4, 4});

BeatMap tapBars(std::initializer_list<double> times) {
    BeatMap map;
    for (const double time : times)
        map = map.tappedBar(Seconds(time), fourFour);
    return map;
}

TEST(BeatMap, TheFirstTapIsBarOneAndLaterTapsFollow) {
    const BeatMap map = tapBars({1.0, 3.0, 5.1});
    ASSERT_EQ(map.marks().size(), 3u);
    EXPECT_EQ(map.marks()[0], (BeatMark{Beats(0), Seconds(1.0)}));
    EXPECT_EQ(map.marks()[2], (BeatMark{Beats(8), Seconds(5.1)}));
}

TEST(BeatMap, InterpolatesEvenlyBetweenMarksAndGoesOnBeyondThem) {
    const BeatMap map = tapBars({1.0, 3.0, 5.4});
    EXPECT_DOUBLE_EQ(map.seconds(Beats(2)).value, 2.0);
    EXPECT_DOUBLE_EQ(map.seconds(Beats(6)).value, 4.2);
    EXPECT_DOUBLE_EQ(map.seconds(Beats(-4)).value, -1.0);
    // The second bar's beats are 0.6 s long, and so is the one after the last mark.
    EXPECT_DOUBLE_EQ(map.seconds(Beats(9)).value, 6.0);
}

TEST(BeatMap, SecondsAndBeatsAreInversesThroughoutADriftingMap) {
    const BeatMap map = tapBars({0.5, 2.3, 4.2, 6.25, 8.1});
    for (double beats = -3; beats < 22; beats += 0.37)
        EXPECT_NEAR(map.beatsAt(map.secondsAt(beats)), beats, 1e-9);
}

TEST(BeatMap, AMissedTapIsBridgedByTheTempoSoFar) {
    const BeatMap map = tapBars({0.0, 2.0, 4.0, 8.05});
    EXPECT_EQ(map.marks().back().position, Beats(16));
}

TEST(BeatMap, OneSlipOfTheFingerDoesNotMakeLaterTapsSkipBars) {
    // Two taps 0.1 s apart, then a steady bar of 2 s: judged by the slip alone, the third would be bar 21.
    EXPECT_EQ(tapBars({0.0, 0.1, 2.1}).marks().back().position, Beats(8));
    EXPECT_EQ(tapBars({0.0, 2.0, 4.0, 4.1, 6.1, 8.1}).marks().back().position, Beats(20));
}

TEST(BeatMap, AnEarlyTapAfterTheLastMarkStillMeansTheNextBar) {
    const BeatMap map = tapBars({0.0, 2.0, 2.9});
    EXPECT_EQ(map.marks().back(), (BeatMark{Beats(8), Seconds(2.9)}));
}

TEST(BeatMap, ATapBetweenMarksMovesTheNearestOne) {
    const BeatMap map = tapBars({0.0, 2.0, 4.0}).tappedBar(Seconds(2.1), fourFour);
    ASSERT_EQ(map.marks().size(), 3u);
    EXPECT_EQ(map.marks()[1], (BeatMark{Beats(4), Seconds(2.1)}));
}

TEST(BeatMap, BeatTapsFillTheBar) {
    const BeatMap map = tapBars({0.0, 2.0}).tappedBeat(Seconds(0.55), fourFour);
    ASSERT_EQ(map.marks().size(), 3u);
    EXPECT_EQ(map.marks()[1], (BeatMark{Beats(1), Seconds(0.55)}));
    EXPECT_DOUBLE_EQ(map.seconds(Beats(1)).value, 0.55);
}

TEST(BeatMap, ADraggedMarkStopsShortOfItsNeighbours) {
    const BeatMap map = tapBars({0.0, 2.0, 4.0}).moved(1, Seconds(9.0));
    EXPECT_DOUBLE_EQ(map.marks()[1].time.value, 3.98);
}

TEST(BeatMap, ADraggedMarkSurvivesBeingReadBackHoweverItsTimesRound) {
    for (double time = 0.1; time < 3; time += 0.1) {
        const BeatMap map = tapBars({time, time + 2, time + 4}).moved(1, Seconds(9.0));
        EXPECT_EQ(BeatMap(map.marks()), map) << time;
    }
}

TEST(BeatMap, RemovingAMarkKeepsTheCountOfBars) {
    const BeatMap map = tapBars({0.0, 2.0, 4.2}).removed(1);
    EXPECT_DOUBLE_EQ(map.seconds(Beats(4)).value, 2.1);
    EXPECT_EQ(map.marks().back().position, Beats(8));
}

TEST(BeatMap, CrossingMarksFromAFileAreDropped) {
    const BeatMap map({{Beats(0), Seconds(0)}, {Beats(4), Seconds(3)}, {Beats(8), Seconds(2)}});
    EXPECT_EQ(map.marks().size(), 2u);
}

TEST(BeatMap, RenumberingMovesEveryPositionAndNoTime) {
    const BeatMap map = tapBars({1.0, 3.0}).renumbered(Beats(-4));
    EXPECT_DOUBLE_EQ(map.seconds(Beats(0)).value, 3.0);
}

TEST(BeatMap, TempoIsThatOfTheStretch) {
    const BeatMap map = tapBars({0.0, 2.0, 4.5});
    EXPECT_DOUBLE_EQ(map.tempoAt(Seconds(1)), 120.0);
    EXPECT_DOUBLE_EQ(map.tempoAt(Seconds(4)), 96.0);
}

TEST(BeatMap, NearestMarkIsFoundWithinTheToleranceOnly) {
    const BeatMap map = tapBars({0.0, 2.0});
    EXPECT_EQ(map.markNear(Seconds(1.95), Seconds(0.1)), std::optional<std::size_t>(1));
    EXPECT_EQ(map.markNear(Seconds(1.0), Seconds(0.1)), std::nullopt);
}

} // namespace
} // namespace earwright
