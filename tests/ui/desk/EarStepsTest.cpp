#include "ui/desk/EarSteps.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

const Seconds duration(60);

/// Bar 1 at 2 s, half a second a beat.
Study marked() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(2)}, {Beats(4), Seconds(4)}});
    return study;
}

TEST(EarSteps, GoToTheNeighbouringBeat) {
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.6), 1, duration).value, 3.0, 1e-9);
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.6), -1, duration).value, 2.5, 1e-9);
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.5), -1, duration).value, 2.0, 1e-9);
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.5), 1, duration).value, 3.0, 1e-9);
}

TEST(EarSteps, DoNotStickToALineTheEarIsAHairBesides) {
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.4999), 1, duration).value, 3.0, 1e-9);
    EXPECT_NEAR(stepBeats(marked(), Seconds(2.5001), -1, duration).value, 2.0, 1e-9);
}

TEST(EarSteps, GoToTheNeighbouringBarLine) {
    EXPECT_NEAR(stepBars(marked(), Seconds(5), 1, duration).value, 6, 1e-9);
    EXPECT_NEAR(stepBars(marked(), Seconds(5), -1, duration).value, 4, 1e-9);
}

TEST(EarSteps, FollowMetersThatChange) {
    Study study = marked();
    study.page.meters = {{2, {3, 4}}, {3, {6, 8}}, {4, {4, 4}}};
    // Bars at 2, 4, 5.5 and 7 s; the bar of 6/8 has two counted beats.
    EXPECT_NEAR(stepBars(study, Seconds(4), 1, duration).value, 5.5, 1e-9);
    EXPECT_NEAR(stepBars(study, Seconds(5.5), 1, duration).value, 7, 1e-9);
    EXPECT_NEAR(stepBars(study, Seconds(7), -2, duration).value, 4, 1e-9);
    EXPECT_NEAR(stepBeats(study, Seconds(5.5), 1, duration).value, 6.25, 1e-9);
    EXPECT_NEAR(stepBeats(study, Seconds(6.25), 2, duration).value, 7.5, 1e-9);
    EXPECT_NEAR(stepBeats(study, Seconds(7), -1, duration).value, 6.25, 1e-9);
}

TEST(EarSteps, CountSecondsBeforeBarsAreMarked) {
    EXPECT_NEAR(stepBeats(Study{}, Seconds(5.5), 1, duration).value, 6.5, 1e-9);
    EXPECT_NEAR(stepBars(Study{}, Seconds(5.5), -1, duration).value, 1.5, 1e-9);
}

TEST(EarSteps, StayWithinTheRecording) {
    EXPECT_EQ(stepBars(marked(), Seconds(0.2), -1, duration), Seconds(0));
    EXPECT_EQ(stepBars(marked(), Seconds(59.9), 1, duration), duration);
}

TEST(EarSteps, FindPhrasesOnEitherSide) {
    Study study;
    study.spans = {{SpanId{1}, SpanKind::Phrase, "a", {Seconds(1), Seconds(3)}},
                   {SpanId{2}, SpanKind::Chorus, "one", {Seconds(4), Seconds(9)}},
                   {SpanId{3}, SpanKind::Phrase, "b", {Seconds(5), Seconds(8)}}};
    EXPECT_EQ(nextPhrase(study, Seconds(1))->name, "b");
    EXPECT_EQ(nextPhrase(study, Seconds(6)), nullptr);
    EXPECT_EQ(previousPhrase(study, Seconds(5.1))->name, "a"); // b has only just begun
    EXPECT_EQ(previousPhrase(study, Seconds(7))->name, "b");
    EXPECT_EQ(innermostSpan(study, Seconds(6))->name, "b");
    EXPECT_EQ(innermostSpan(study, Seconds(8.5))->name, "one");
    EXPECT_EQ(innermostSpan(study, Seconds(20)), nullptr);
}

TEST(EarSteps, FindTheLooseEndNearby) {
    Study study;
    study.looseEnds = {{LooseEndId{1}, Seconds(3), "a", false}, {LooseEndId{2}, Seconds(3.8), "b", true}};
    EXPECT_EQ(looseEndNear(study, Seconds(3.3))->text, "a");
    EXPECT_EQ(looseEndNear(study, Seconds(3.5))->text, "b");
    EXPECT_EQ(looseEndNear(study, Seconds(9)), nullptr);
}

} // namespace
} // namespace earwright::ui
