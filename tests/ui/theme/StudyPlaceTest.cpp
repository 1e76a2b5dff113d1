#include "ui/theme/StudyPlace.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// Bars of two seconds in 4/4 from the recording's start.
Study withBars() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    return study;
}

TEST(StudyPlace, IsInBarsWhereTheyAreMarkedAndElseOnTheClock) {
    EXPECT_EQ(placeIn(withBars(), Seconds(16.25)).toStdString(), "bar 9, beat 1½");
    EXPECT_EQ(placeIn(Study(), Seconds(72.4)).toStdString(), "1:12.4");
}

TEST(StudyPlace, TellsTheEarWhatIsChosenAndTheLoop) {
    Study study = withBars();
    EXPECT_EQ(earIn(study, Seconds(2.7), std::nullopt).toStdString(), "The ear is at bar 2, beat 2.");
    study.practice.loop = Range{Seconds(2), Seconds(4)};
    EXPECT_EQ(earIn(study, Seconds(2.7), Range{Seconds(0), Seconds(1)}).toStdString(),
              "The ear is at bar 2, beat 2. Chosen: bar 1, beat 1 to bar 1, beat 3. "
              "The loop: bar 2, beat 1 to bar 3, beat 1.");
    EXPECT_EQ(earIn(Study(), Seconds(72.9), std::nullopt).toStdString(), "The ear is at 1:12.");
}

} // namespace
} // namespace earwright::ui
