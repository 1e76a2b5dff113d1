#include "core/study/PassageEdits.h"

#include "core/study/PlayedTime.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr KeySignature bFlat{-2, Mode::Major};
constexpr KeySignature dMinor{-1, Mode::Minor};

PassageChange over(std::int64_t firstBar, std::optional<std::int64_t> bars) {
    PassageChange change;
    change.firstBar = firstBar;
    change.bars = bars;
    return change;
}

TEST(PassageEdits, AKeyForAFewBarsGivesWayToTheOneBefore) {
    PassageChange change = over(3, 2);
    change.key = dMinor;
    const Study study = *changePassage(setKey(eightBarsAt120(), 1, bFlat), change);
    EXPECT_EQ(study.page.keyAt(2), bFlat);
    EXPECT_EQ(study.page.keyAt(4), dMinor);
    EXPECT_EQ(study.page.keyAt(5), bFlat);
}

TEST(PassageEdits, SwingHoldsForItsPassageOnly) {
    PassageChange change = over(2, 1);
    change.swing = Swing{2, 8};
    const Study study = *changePassage(eightBarsAt120(), change);
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(7, 2)), 3.5);
    EXPECT_NEAR(playedBeat(study, Beats(9, 2)), 4 + 2.0 / 3, 1e-12);
    EXPECT_DOUBLE_EQ(playedBeat(study, Beats(17, 2)), 8.5);
}

TEST(PassageEdits, EverythingAtOnceIsOneEdit) {
    PassageChange change = over(3, 2);
    change.meter = Meter{6, 8};
    change.key = bFlat;
    change.tempo = StatedTempo{"Slowly", 72};
    change.repeat = StatedRepeat{2, 1};
    const Study study = *changePassage(eightBarsAt120(), change);
    EXPECT_EQ(study.meters().at(3), (Meter{6, 8}));
    EXPECT_EQ(study.meters().at(5), (Meter{4, 4}));
    EXPECT_EQ(study.page.keyAt(4), bFlat);
    EXPECT_EQ(study.page.tempos.front().at, study.meters().barStart(3));
    EXPECT_EQ(study.page.repeats.front(), (Repeat{3, 4, 2, 1}));
    // Tapped bar lines stay where they are, and a repeat moves nothing.
    for (int bar = 1; bar <= 9; ++bar)
        EXPECT_DOUBLE_EQ(study.beatMap.seconds(study.meters().barStart(bar)).value, 2.0 * (bar - 1));
}

TEST(PassageEdits, ARepeatOfOneTimeIsTakenAway) {
    PassageChange change = over(3, 2);
    change.repeat = StatedRepeat{2, 0};
    const Study study = *changePassage(eightBarsAt120(), change);
    change.repeat = StatedRepeat{1, 0};
    EXPECT_EQ(*changePassage(study, change), eightBarsAt120());
}

TEST(PassageEdits, APickupIsCountedInTheMeterThatIsSetWithIt) {
    PassageChange change = over(1, std::nullopt);
    change.meter = Meter{5, 4};
    change.pickup = StatedPickup{Beats(5)};
    const Study study = *changePassage(eightBarsAt120(), change);
    EXPECT_EQ(study.page.pickup, Beats(5));
    change = over(1, std::nullopt);
    change.pickup = StatedPickup{};
    EXPECT_EQ(changePassage(study, change)->page.pickup, std::nullopt);
}

TEST(PassageEdits, WhatAPageCannotSayIsRefused) {
    const Study study = eightBarsAt120();
    PassageChange tooLong = over(1, std::nullopt);
    tooLong.pickup = StatedPickup{Beats(9, 2)};
    EXPECT_FALSE(changePassage(study, tooLong)) << "longer than its bar";
    PassageChange change = over(3, std::nullopt);
    change.swing = Swing{4.5, 8};
    EXPECT_FALSE(changePassage(study, change));
    change = over(3, std::nullopt);
    change.tempo = StatedTempo{"", 900};
    EXPECT_FALSE(changePassage(study, change));
    change = over(3, std::nullopt);
    change.repeat = StatedRepeat{2, 0};
    EXPECT_FALSE(changePassage(study, change));
    change = over(3, 2);
    change.repeat = StatedRepeat{2, 2};
    EXPECT_FALSE(changePassage(study, change));
}

} // namespace
} // namespace earwright
