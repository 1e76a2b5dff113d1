#include "ui/theme/PlaceText.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

constexpr Meter fourFour{4, 4};

std::string at(const Beats& place, const MeterMap& meter = MeterMap(fourFour)) {
    return placeText(place, meter).toStdString();
}

} // namespace

TEST(PlaceText, CountsBarsAndBeatsFromOne) {
    EXPECT_EQ(at(Beats(0)), "bar 1, beat 1");
    EXPECT_EQ(at(Beats(29 * 4 + 1)), "bar 30, beat 2");
    EXPECT_EQ(at(Beats(3), MeterMap(Meter{3, 4})), "bar 2, beat 1");
}

TEST(PlaceText, SetsFractionsOfABeatAsPrintDoes) {
    EXPECT_EQ(at(Beats(3, 2)), "bar 1, beat 2½");
    EXPECT_EQ(at(Beats(1, 3)), "bar 1, beat 1⅓");
    EXPECT_EQ(at(Beats(3, 4)), "bar 1, beat 1¾");
    EXPECT_EQ(at(Beats(5, 6)), "bar 1, beat 1⅚");
}

TEST(PlaceText, RoundsOtherPlacesToTheNearestOneWithASign) {
    EXPECT_EQ(at(Beats(48, 100)), "bar 1, beat 1½");
    EXPECT_EQ(at(Beats(99, 100)), "bar 1, beat 2");
    EXPECT_EQ(at(Beats(399, 100)), "bar 2, beat 1");
}

// Common practice: three eighths of 6/8 are one beat.
TEST(PlaceText, CountsInTheMeterOfTheBar) {
    const MeterMap meters(fourFour, {{2, {3, 4}}, {3, {6, 8}}, {4, {4, 4}}});
    EXPECT_EQ(at(Beats(6), meters), "bar 2, beat 3");
    EXPECT_EQ(at(Beats(17, 2), meters), "bar 3, beat 2");
    EXPECT_EQ(at(Beats(9), meters), "bar 3, beat 2⅓");
    EXPECT_EQ(at(Beats(11), meters), "bar 4, beat 2");
}

// Common practice: the incomplete bar before bar 1 is the pickup, and bars are counted from 1.
TEST(PlaceText, CallsTheBarBeforeBarOneThePickup) {
    EXPECT_EQ(at(Beats(-1, 2)), "pickup, beat 4½");
    EXPECT_EQ(placeSentence(Beats(-1), MeterMap(fourFour)).toStdString(), "Pickup, beat 4");
}

TEST(PlaceText, CountsEarlierBarsBackFromBarOne) {
    EXPECT_EQ(at(Beats(-5)), "2 bars before bar 1, beat 4");
    EXPECT_EQ(at(Beats(-16)), "4 bars before bar 1, beat 1");
}

TEST(PlaceText, NamesARunOfBarsByItsEnds) {
    EXPECT_EQ(barsText(9, 12).toStdString(), "bars 9–12");
    EXPECT_EQ(barsText(9, 9).toStdString(), "bar 9");
    EXPECT_EQ(barsText(0, 0).toStdString(), "pickup");
    EXPECT_EQ(barsText(0, 4).toStdString(), "pickup to bar 4");
    EXPECT_EQ(barsText(-1, 0).toStdString(), "2 bars before bar 1 to pickup");
    EXPECT_EQ(chordsTitle(0).toStdString(), "Chords of the pickup");
    EXPECT_EQ(chordsTitle(-1).toStdString(), "Chords 2 bars before bar 1");
}

TEST(PlaceText, StartsASentenceWithACapital) {
    EXPECT_EQ(placeSentence(Beats(2), MeterMap(fourFour)).toStdString(), "Bar 1, beat 3");
}

TEST(PlaceText, TellsTheClockToTheTenth) {
    EXPECT_EQ(clockText(Seconds(72.43)).toStdString(), "1:12.4");
    EXPECT_EQ(clockText(Seconds(59.96)).toStdString(), "1:00.0");
    EXPECT_EQ(clockText(Seconds(3723.5)).toStdString(), "1:02:03.5");
    EXPECT_EQ(clockText(Seconds(-0.01)).toStdString(), "0:00.0");
    EXPECT_EQ(lengthText(Seconds(271.2)).toStdString(), "4:31");
}
