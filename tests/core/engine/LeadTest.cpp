#include "core/engine/Lead.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

constexpr SampleRate rate{1000};

/// Bars of three; 0.5 s a beat for six beats from 1 s on, then 0.4 s for three.
BeatList waltz() {
    std::vector<BeatPlace> beats;
    for (int beat = 0; beat < 6; ++beat)
        beats.push_back({Frames(1000 + 500 * beat), beat % 3 == 0});
    for (int beat = 6; beat < 10; ++beat)
        beats.push_back({Frames(4000 + 400 * (beat - 6)), beat % 3 == 0});
    return beatListOf(std::move(beats));
}

/// Seconds from the beginning of a lead to each click.
std::vector<double> clickTimes(const Lead& lead) {
    std::vector<double> times;
    for (const LeadClick& click : lead.clicks)
        times.push_back(lead.seconds - click.before);
    return times;
}

std::vector<bool> accents(const Lead& lead) {
    std::vector<bool> all;
    for (const LeadClick& click : lead.clicks)
        all.push_back(click.opensBar);
    return all;
}

void expectTimes(const Lead& lead, const std::vector<double>& expected) {
    const auto times = clickTimes(lead);
    ASSERT_EQ(times.size(), expected.size());
    for (std::size_t i = 0; i < times.size(); ++i)
        EXPECT_NEAR(times[i], expected[i], 1e-9) << i;
}

TEST(Lead, IsNothingForNoBeats) {
    EXPECT_EQ(Lead::gap(waltz(), Frames(4000), 0, rate, 1).stage, Stage::Sounding);
    EXPECT_EQ(Lead::countIn(waltz(), Frames(4000), 0, rate, 1).seconds, 0);
}

TEST(Lead, LeavesAGapInTheTempoBeforeTheLoopsEndAtTheSpeedHeard) {
    // The loop ends at 4 s, where the tempo changes: the beats before it count, 0.5 s each.
    const Lead lead = Lead::gap(waltz(), Frames(4000), 3, rate, 0.5);
    EXPECT_EQ(lead.stage, Stage::Gap);
    EXPECT_DOUBLE_EQ(lead.seconds, 3.0);
    EXPECT_DOUBLE_EQ(lead.beatSeconds, 1.0);
    expectTimes(lead, {0, 1, 2});
    EXPECT_EQ(accents(lead), (std::vector<bool>{true, false, false}));
}

TEST(Lead, KeepsTheClicksOfAGapOnTheBeat) {
    // Ends a fifth of a beat after the beat at 3 s: the next one is 0.4 s away.
    const Lead lead = Lead::gap(waltz(), Frames(3100), 2, rate, 1);
    EXPECT_DOUBLE_EQ(lead.seconds, 1.0);
    expectTimes(lead, {0.4, 0.9});
    EXPECT_EQ(accents(lead), (std::vector<bool>{false, true})) << "3.5 s is beat three, 4 s a bar";
}

TEST(Lead, CountsInTheTempoOfThePlace) {
    const Lead lead = Lead::countIn(waltz(), Frames(4000), 4, rate, 2);
    EXPECT_EQ(lead.stage, Stage::CountIn);
    EXPECT_DOUBLE_EQ(lead.seconds, 4 * 0.4 / 2);
    expectTimes(lead, {0, 0.2, 0.4, 0.6});
    EXPECT_EQ(accents(lead), (std::vector<bool>{false, true, false, false}));
}

TEST(Lead, CountsInBeforeTheFirstBeatOfTheMapAsIfItWentOn) {
    const Lead lead = Lead::countIn(waltz(), Frames(1000), 3, rate, 1);
    expectTimes(lead, {0, 0.5, 1.0});
    EXPECT_EQ(accents(lead), (std::vector<bool>{true, false, false}));
}

TEST(Lead, CountsOnTheBeatsAlsoWhereThePlaceIsBetweenThem) {
    // Half a beat behind the beat at 2 s: that beat and the one before are counted.
    const Lead between = Lead::countIn(waltz(), Frames(2250), 2, rate, 1);
    EXPECT_DOUBLE_EQ(between.seconds, 1.0);
    expectTimes(between, {0.25, 0.75});
    // A hair behind it, the beat is played, not counted.
    const Lead behind = Lead::countIn(waltz(), Frames(2010), 2, rate, 1);
    EXPECT_NEAR(behind.seconds, 1.01, 1e-9);
    expectTimes(behind, {0, 0.5});
    // A frame before it, through rounding, it is on it.
    const Lead rounded = Lead::countIn(waltz(), Frames(1999), 2, rate, 1);
    EXPECT_NEAR(rounded.seconds, 1.0, 1e-9);
    expectTimes(rounded, {0, 0.5});
}

TEST(Lead, TakesHalfASecondForABeatWhereThereIsNoMap) {
    // Standard MIDI Files 1.0: 500,000 microseconds a quarter where no tempo is set.
    EXPECT_DOUBLE_EQ(Lead::gap(beatListOf({}), Frames(4000), 2, rate, 0.5).seconds, 2.0);
    const Lead lead = Lead::countIn(beatListOf({}), Frames(123), 4, rate, 1);
    EXPECT_DOUBLE_EQ(lead.seconds, 2.0);
    expectTimes(lead, {0, 0.5, 1.0, 1.5});
}

TEST(Lead, GoesOnAtAnotherSpeedWithWhatIsLeft) {
    const Lead lead = Lead::countIn(waltz(), Frames(4000), 4, rate, 1);
    const Lead rest = lead.rest(0.9, 2); // of 1.6 s; clicks at 0.8 and 0.4 s before the end are left
    EXPECT_DOUBLE_EQ(rest.seconds, 1.8);
    EXPECT_DOUBLE_EQ(rest.beatSeconds, 0.8);
    expectTimes(rest, {0.2, 1.0});
}

TEST(BeatList, IsSortedAndHasEachPlaceOnce) {
    const BeatList list = beatListOf({{Frames(30), false}, {Frames(10), true}, {Frames(30), false}});
    ASSERT_EQ(list->size(), 2u);
    EXPECT_EQ((*list)[0].at, Frames(10));
    EXPECT_TRUE((*list)[0].opensBar);
}

} // namespace
} // namespace earwright
