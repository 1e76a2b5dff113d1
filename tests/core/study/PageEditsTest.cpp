#include "core/study/PageEdits.h"

#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr KeySignature bFlatMajor{-2, Mode::Major};

TEST(PageEdits, WhatStandsAtAPlaceIsReplacedAndTakenAway) {
    Study study = setKey(setKey({}, 5, KeySignature{1, Mode::Major}), 1, bFlatMajor);
    ASSERT_EQ(study.page.keys.size(), 2u);
    EXPECT_EQ(study.page.keys.front().bar, 1) << "in order of bars";
    study = setKey(study, 5, KeySignature{-3, Mode::Minor});
    EXPECT_EQ(study.page.keyAt(9), (KeySignature{-3, Mode::Minor}));
    EXPECT_EQ(study.page.keyAt(4), bFlatMajor);
    EXPECT_EQ(study.page.keyAt(0), bFlatMajor) << "a pickup has the key of bar 1";
    EXPECT_EQ(setKey({}, 5, bFlatMajor).page.keyAt(4), KeySignature{}) << "nothing is said before";
    EXPECT_EQ(setKey(study, 5, std::nullopt).page.keyAt(9), bFlatMajor);
}

TEST(PageEdits, WhatIsOutOfRangeChangesNothing) {
    EXPECT_EQ(setSwing({}, Beats(0), Swing{4.5, 8}), Study{});
    EXPECT_EQ(setKey({}, 1, KeySignature{8, Mode::Major}), Study{});
    EXPECT_EQ(setHairpin({}, {Beats(2), Beats(2)}, HairpinKind::Louder), Study{});
    EXPECT_EQ(setRepeat({}, {1, 2, 2, 2}), Study{}) << "no bar before the first ending";
}

TEST(PageEdits, SwingHoldsFromItsPlaceToTheNext) {
    const Study study = setSwing(setSwing({}, Beats(0), Swing{2, 8}), Beats(8), Swing{});
    EXPECT_EQ(study.page.swingAt(Beats(-1)), Swing{});
    EXPECT_EQ(study.page.swingAt(Beats(15, 2)), (Swing{2, 8}));
    EXPECT_EQ(study.page.swingAt(Beats(8)), Swing{});
}

TEST(PageEdits, AHairpinOrRepeatTakesThePlaceOfThoseItOverlaps) {
    Study study = setHairpin({}, {Beats(0), Beats(4)}, HairpinKind::Louder);
    study = setHairpin(study, {Beats(4), Beats(8)}, HairpinKind::Softer);
    ASSERT_EQ(study.page.hairpins.size(), 2u) << "they may touch";
    study = setHairpin(study, {Beats(3), Beats(5)}, HairpinKind::Louder);
    ASSERT_EQ(study.page.hairpins.size(), 1u);
    study = setRepeat(setRepeat(study, {1, 4, 2, 0}), {4, 8, 2, 1});
    ASSERT_EQ(study.page.repeats.size(), 1u);
    EXPECT_EQ(study.page.repeats.front().firstBar, 4);
    EXPECT_TRUE(removeRepeat(study, 8).page.repeats.empty());
}

TEST(PageEdits, TextsStandAboveAndBelowOnePlace) {
    Study study = setText(setText({}, {Beats(4), "cue", true}), {Beats(4), "laid back", false});
    EXPECT_EQ(study.page.texts.size(), 2u);
    study = setText(study, {Beats(4), "", true});
    ASSERT_EQ(study.page.texts.size(), 1u);
    EXPECT_EQ(study.page.texts.front().text, "laid back");
}

TEST(PageEdits, AllOfThemMoveAlongWhenBarOneIsElsewhere) {
    Study study = setKey(setSwing(eightBarsAt120(), Beats(8), Swing{2, 8}), 3, bFlatMajor);
    study = meterFrom(meterFrom(study, 2, Meter{3, 4}), 5, Meter{6, 8});
    study = startBarOneAt(study, Seconds(4));
    EXPECT_EQ(study.page.swings.front().at, Beats(0));
    EXPECT_EQ(study.page.keys.front().bar, 1);
    ASSERT_EQ(study.page.meters.size(), 1u);
    EXPECT_EQ(study.page.meters.front().bar, 3);
}

TEST(PageEdits, APickupIsAsLongAsItWasMadeAndAtMostABar) {
    const Study study = setPickup(eightBarsAt120(), Beats(3, 2));
    EXPECT_EQ(study.page.pickup, Beats(3, 2));
    EXPECT_EQ(setPickup(study, std::nullopt), eightBarsAt120());
    for (const Beats& length : {Beats(0), Beats(-1), Beats(5), Beats(1, 3), Beats(1, 16)})
        EXPECT_EQ(setPickup(study, length), study) << toString(length);
    EXPECT_EQ(setPickup(study, Beats(4)).page.pickup, Beats(4)) << "a whole bar";
    EXPECT_EQ(setPickup(study, Beats(1, 8)).page.pickup, Beats(1, 8)) << "a thirty-second";
}

TEST(PageEdits, APickupStaysWithItsSoundUnderAnotherMeterAndWhereBarOneMoves) {
    // Bar lines are marked every two seconds; of four beats one and a half are three eighths of a bar.
    const Study study = setPickup(eightBarsAt120(), Beats(3, 2));
    EXPECT_EQ(setMeter(study, {8, 8}).page.pickup, Beats(3));
    EXPECT_EQ(startBarOneAt(study, Seconds(0.5)).page.pickup, Beats(5, 2)) << "bar 1 is a beat later";
    EXPECT_EQ(startBarOneAt(study, Seconds(2)).page.pickup, std::nullopt) << "more than a bar before bar 1";
}

} // namespace
} // namespace earwright
