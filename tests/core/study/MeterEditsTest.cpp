#include "core/study/MeterEdits.h"

#include "core/study/MarkEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr Meter fourFour{4, 4};
constexpr Meter threeFour{3, 4};
constexpr Meter sixEight{6, 8};

Seconds lineOf(const Study& study, std::int64_t bar) {
    return study.beatMap.seconds(study.meters().barStart(bar));
}

/// Beats marked one by one at 120 bpm: beat b is at b/2 seconds.
Study beatsAt120(int count) {
    Study study = eightBarsAt120();
    std::vector<BeatMark> marks;
    for (int beat = 0; beat <= count; ++beat)
        marks.push_back({Beats(beat), Seconds(beat / 2.0)});
    study.beatMap = BeatMap(std::move(marks));
    return study;
}

TEST(MeterEdits, ThreeMetersInTurnMoveTheBarLinesAndNoBeat) {
    Study study = addNote(beatsAt120(32), {Pitch{60, {}}, Beats(21, 2), Beats(1, 2)}).study;
    study = *changeMeter(study, 3, threeFour);
    study = *changeMeter(study, 5, sixEight);
    study = *changeMeter(study, 7, fourFour);
    EXPECT_EQ(study.page.meters, (std::vector<MeterChange>{{3, threeFour}, {5, sixEight}, {7, fourFour}}));
    // 4 + 4 beats, 3 + 3 of three four, 3 + 3 quarters of six eight, half a second each.
    const double starts[]{0, 2, 4, 5.5, 7, 8.5, 10, 12};
    for (int bar = 1; bar <= 8; ++bar)
        EXPECT_DOUBLE_EQ(lineOf(study, bar).value, starts[bar - 1]) << bar;
    EXPECT_EQ(study.notes[0].onset, Beats(21, 2));
    EXPECT_DOUBLE_EQ(study.beatMap.seconds(study.notes[0].onset).value, 5.25);
}

TEST(MeterEdits, AMeterForAFewBarsGivesWayToTheOneBefore) {
    const Study study = *changeMeter(beatsAt120(32), 2, Meter{2, 4}, 1);
    EXPECT_EQ(study.page.meters, (std::vector<MeterChange>{{2, {2, 4}}, {3, fourFour}}));
    EXPECT_DOUBLE_EQ(lineOf(study, 3).value, 3.0);
    EXPECT_EQ(changeMeter(study, 2, fourFour, 1)->page.meters, std::vector<MeterChange>{});
}

TEST(MeterEdits, LaterKeysRepeatsAndChordsStayWithTheirSound) {
    Study study = setKey(beatsAt120(32), 5, KeySignature{-2, Mode::Major});
    study = setRepeat(overrideBars(study, 5, "Bb7 F7"), {5, 6, 2, 0});
    const Seconds before = lineOf(study, 5);
    // Bar 2 becomes two bars of two, so that what was bar 5 is bar 6.
    study = *changeMeter(study, 2, Meter{2, 4}, 2);
    EXPECT_EQ(study.page.keys.front().bar, 6);
    EXPECT_EQ(study.page.repeats.front().firstBar, 6);
    EXPECT_EQ(study.page.repeats.front().lastBar, 7);
    EXPECT_EQ(chordText(study, 6), "Bb7 F7");
    EXPECT_EQ(lineOf(study, 6), before);
}

TEST(MeterEdits, TappedBarLinesStayBarLines) {
    Study study = addNote(eightBarsAt120(), {Pitch{60, {}}, Beats(14), Beats(2)}).study;
    study = *changeMeter(study, 3, threeFour);
    for (int bar = 1; bar <= 9; ++bar)
        EXPECT_DOUBLE_EQ(lineOf(study, bar).value, 2.0 * (bar - 1)) << bar;
    // Halfway through bar 4, which now has three beats from beat 11 on.
    EXPECT_EQ(study.notes[0].onset, Beats(25, 2));
    EXPECT_DOUBLE_EQ(study.beatMap.seconds(study.notes[0].onset).value, 7.0);
}

TEST(MeterEdits, GoingBackGivesTheSameStudy) {
    const Study before = addNote(eightBarsAt120(), {Pitch{60, {}}, Beats(14), Beats(2)}).study;
    EXPECT_EQ(removeMeterChange(*changeMeter(before, 3, threeFour), 3), before);
    const Study beats = addNote(beatsAt120(32), {Pitch{60, {}}, Beats(14), Beats(2)}).study;
    EXPECT_EQ(removeMeterChange(*changeMeter(beats, 3, threeFour), 3), beats);
}

TEST(MeterEdits, WhatIsNoMeterIsRefusedWithASentence) {
    for (const Meter& meter : {Meter{0, 4}, Meter{33, 4}, Meter{4, 3}, Meter{4, 64}}) {
        const auto refused = changeMeter(beatsAt120(8), 3, meter);
        ASSERT_FALSE(refused);
        EXPECT_NE(refused.error().message.find("1 to 32 beats"), std::string::npos);
    }
    EXPECT_FALSE(changeMeter(beatsAt120(8), 3, threeFour, 0));
    EXPECT_FALSE(changeMeter(beatsAt120(8), 1'000'000, threeFour));
}

TEST(MeterEdits, TheFormSpreadsOverBarsOfAnotherMeter) {
    Study study = layOutChoruses(setForm(beatsAt120(32), "C7 F7"), 1, 4, 1);
    study = *changeMeter(study, 2, sixEight, 1);
    // Two chords in 4/4 take two beats each, in 6/8 a dotted quarter each (common practice).
    EXPECT_EQ(study.barChords(1).chords[1].withinBar, Beats(2));
    EXPECT_EQ(study.barChords(2).chords[1].withinBar, Beats(3, 2));
    EXPECT_EQ(study.chordAt(Beats(11, 2))->text, "F7");
    EXPECT_EQ(chordText(study, 2), "C7 F7");
}

TEST(MeterEdits, ABarTappedLaterFollowsItsMeter) {
    Study study;
    study = tapBar(tapBar(study, Seconds(0)), Seconds(2));
    study = *changeMeter(study, 2, threeFour);
    study = tapBar(study, Seconds(3.5));
    EXPECT_EQ(study.beatMap.marks().back().position, Beats(7));
}

TEST(MeterEdits, CountedBeatsAreDividedInThreeWhereThreeEighthsAreOne) {
    Study study = *changeMeter(beatsAt120(32), 2, sixEight, 1);
    EXPECT_EQ(study.divisionOf(Beats(3)), BeatDivision::Two);
    EXPECT_EQ(study.divisionOf(Beats(11, 2)), BeatDivision::Three);
    study = setDivision(study, Beats(11, 2), BeatDivision::Six);
    EXPECT_EQ(study.divisionOf(Beats(11, 2)), BeatDivision::Six);
    EXPECT_EQ(setDivision(study, Beats(5), BeatDivision::Four), study);
}

TEST(MeterEdits, BarOneMovedBehindAChangeTakesItsMeterAlong) {
    Study study = *changeMeter(beatsAt120(32), 3, sixEight);
    study = startBarOneAt(study, Seconds(4));
    EXPECT_EQ(study.meter, sixEight);
    EXPECT_TRUE(study.page.meters.empty());
    // A bar of six eighths lasts three quarters.
    EXPECT_DOUBLE_EQ(lineOf(study, 1).value, 4.0);
    EXPECT_DOUBLE_EQ(lineOf(study, 2).value, 5.5);
}

} // namespace
} // namespace earwright
