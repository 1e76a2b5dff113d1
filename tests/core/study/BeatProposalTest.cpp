#include "core/study/BeatProposal.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Beats half a second apart.
std::vector<ProposedBeat> beatsFrom(double start, int count, int firstPosition = 0) {
    std::vector<ProposedBeat> beats;
    for (int i = 0; i < count; ++i)
        beats.push_back({Seconds(start + 0.5 * i), firstPosition ? (firstPosition - 1 + i) % 4 + 1 : 0, 0.9});
    return beats;
}

TEST(BeatProposal, WithoutMarksBarOneIsTheFirstProposedBarLine) {
    const Study accepted = acceptBeats({}, beatsFrom(1, 6, 4));
    ASSERT_EQ(accepted.beatMap.marks().size(), 6u);
    EXPECT_EQ(accepted.beatMap.marks()[0], (BeatMark{Beats(-1), Seconds(1)}));
    EXPECT_EQ(accepted.beatMap.marks()[1], (BeatMark{Beats(0), Seconds(1.5)}));
    EXPECT_EQ(accepted.beatMap.marks()[5], (BeatMark{Beats(4), Seconds(3.5)}));
}

TEST(BeatProposal, WithoutMarksAndBarLinesBarOneIsTheFirstBeat) {
    EXPECT_EQ(acceptBeats({}, beatsFrom(1, 2)).beatMap.marks()[0], (BeatMark{Beats(0), Seconds(1)}));
}

TEST(BeatProposal, AWaltzThatIsProposedSetsTheMeterOfAnEmptyStudy) {
    std::vector<ProposedBeat> waltz;
    for (int i = 0; i < 7; ++i)
        waltz.push_back({Seconds(1 + 0.4 * i), i % 3 + 1, 0.9});
    EXPECT_EQ(acceptBeats({}, waltz).meter, (Meter{3, 4}));
    EXPECT_EQ(acceptBeats({}, beatsFrom(1, 6, 1)).meter, (Meter{4, 4}));
    EXPECT_EQ(acceptBeats({}, beatsFrom(1, 6)).meter, Meter{}) << "no bars told";
}

TEST(BeatProposal, AMeterThatIsCountedOnStays) {
    const std::vector<ProposedBeat> waltz{{Seconds(1), 1, 1}, {Seconds(2), 2, 1}, {Seconds(3), 3, 1}};
    Study marked;
    marked.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(1), Seconds(2)}});
    EXPECT_EQ(acceptBeats(marked, waltz).meter, Meter{});
    Study charted;
    charted.chart.form = {BarChords{}, BarChords{}};
    EXPECT_EQ(acceptBeats(charted, waltz).meter, Meter{});
}

TEST(BeatProposal, MarksStayAndTheOthersAreCountedFromThem) {
    Study study;
    study.beatMap = BeatMap({{Beats(8), Seconds(2.03)}, {Beats(9), Seconds(2.47)}});
    const Study accepted = acceptBeats(study, beatsFrom(1, 6, 1));
    const std::vector<BeatMark> expected{{Beats(6), Seconds(1)},    {Beats(7), Seconds(1.5)},
                                         {Beats(8), Seconds(2.03)}, {Beats(9), Seconds(2.47)},
                                         {Beats(10), Seconds(3)},   {Beats(11), Seconds(3.5)}};
    EXPECT_EQ(accepted.beatMap.marks(), expected);
}

TEST(BeatProposal, FillsABarOnlyWithAsManyBeatsAsItsMarksSay) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(3)}, {Beats(8), Seconds(4.5)}});
    const Study accepted = acceptBeats(study, beatsFrom(1, 8));
    // Beats 1 to 3 fit the first bar; the second is marked as four beats in the time of three.
    ASSERT_EQ(accepted.beatMap.marks().size(), 6u);
    EXPECT_EQ(accepted.beatMap.marks()[2], (BeatMark{Beats(2), Seconds(2)}));
    EXPECT_EQ(accepted.beatMap.marks()[5], (BeatMark{Beats(8), Seconds(4.5)}));
}

TEST(BeatProposal, FewerThanTwoBeatsOrPlacesBeyondAnyMusicChangeNothing) {
    EXPECT_EQ(acceptBeats({}, beatsFrom(1, 1)), Study{});
    EXPECT_EQ(acceptBeats({}, {{Seconds(2e6), 1, 1}, {Seconds(3e6), 2, 1}}), Study{});
}

TEST(BeatProposal, BarLinesInTheRangeAreTapsOnEachOfTheirBeats) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(3)}, {Beats(8), Seconds(5.4)}});
    const std::vector<Seconds> taps = tapsOf(study, {Seconds(1), Seconds(5)});
    const std::vector<Seconds> expected{Seconds(1), Seconds(1.5), Seconds(2), Seconds(2.5), Seconds(3)};
    EXPECT_EQ(taps, expected);
    EXPECT_TRUE(tapsOf(study, {Seconds(3.5), Seconds(9)}).empty());
}

TEST(BeatProposal, ThreeEighthsAreOneTap) {
    Study study;
    study.meter = {12, 8};
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(12), Seconds(3)}, {Beats(36), Seconds(7)}});
    const std::vector<Seconds> first{Seconds(1), Seconds(1.5), Seconds(2), Seconds(2.5), Seconds(3)};
    EXPECT_EQ(tapsOf(study, {Seconds(1), Seconds(3)}), first);
    EXPECT_EQ(tapsOf(study, {Seconds(1), Seconds(7)}).size(), 13u) << "two bars are eight counted beats";
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(48), Seconds(9)}});
    EXPECT_TRUE(tapsOf(study, {Seconds(1), Seconds(9)}).empty()) << "four bars say too little";
}

TEST(BeatProposal, BeatsAreCountedFromMarksInTheMeterThatStandsThere) {
    // Bar 1 in 9/8, from bar 2 on 3/4: counted beats at 0 3 6 | 9 11 13 | 15 in eighths.
    Study study;
    study.meter = {9, 8};
    study.page.meters = {{2, {3, 4}}};
    study.beatMap = BeatMap({{Beats(3), Seconds(1.5)}, {Beats(13), Seconds(3.5)}});
    const std::vector<BeatMark> expected{
        {Beats(-3), Seconds(0.5)}, {Beats(0), Seconds(1)},   {Beats(3), Seconds(1.5)},
        {Beats(6), Seconds(2)},    {Beats(9), Seconds(2.5)}, {Beats(11), Seconds(3)},
        {Beats(13), Seconds(3.5)}, {Beats(15), Seconds(4)},  {Beats(17), Seconds(4.5)}};
    EXPECT_EQ(acceptBeats(study, beatsFrom(0.5, 9)).beatMap.marks(), expected);
}

TEST(BeatProposal, InAMeterOfEighthsInThreesAProposedBeatIsThreeOfThem) {
    Study study;
    study.meter = {6, 8};
    const Study accepted = acceptBeats(study, beatsFrom(1, 6, 1));
    EXPECT_EQ(accepted.meter, (Meter{6, 8})) << "chosen before";
    EXPECT_EQ(accepted.beatMap.marks()[4], (BeatMark{Beats(12), Seconds(3)}));
}

} // namespace
} // namespace earwright
