#include "core/study/ChartEdits.h"

#include "core/study/SpanEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Two choruses of four bars.
Study twoChoruses() {
    return setForm(layOutChoruses(eightBarsAt120(), 1, 4, 2), "Bb7 | Eb7 | Bb7 | Fm7 Bb7");
}

std::string bar(const Study& study, std::int64_t number) {
    return toText({study.barChords(number)}, study.meter);
}

TEST(ChartEdits, AFormTypedOnceStandsOverEveryChorus) {
    const Study study = twoChoruses();
    EXPECT_EQ(bar(study, 2), "Eb7");
    EXPECT_EQ(bar(study, 8), "Fm7 Bb7");
    EXPECT_EQ(study.chordAt(Beats(30))->text, "Bb7");
}

TEST(ChartEdits, OneBarOfOneChorusCanHaveOtherChords) {
    const Study study = overrideBars(twoChoruses(), 6, "E°7");
    EXPECT_EQ(bar(study, 2), "Eb7");
    EXPECT_EQ(bar(study, 6), "E°7");
    EXPECT_EQ(bar(clearOverride(study, 6), 6), "Eb7");
    EXPECT_EQ(clearOverride(study, 7), study);
}

TEST(ChartEdits, SeveralBarsAreOverriddenAtOnceAndARepeatSignTakesTheBarBefore) {
    const Study study = overrideBars(twoChoruses(), 5, "% | Ab7 |");
    EXPECT_EQ(bar(study, 5), "Fm7 Bb7");
    EXPECT_EQ(bar(study, 6), "Ab7");
    EXPECT_EQ(bar(study, 7), "Bb7");
}

TEST(ChartEdits, AnEmptyTextLetsTheChordBeforeGoOn) {
    const Study study = overrideBars(twoChoruses(), 6, "");
    EXPECT_EQ(bar(study, 6), "| |");
    EXPECT_EQ(study.chordAt(Beats(20))->text, "Bb7");
}

TEST(ChartEdits, ANewFormLeavesOverriddenBarsAlone) {
    const Study study = setForm(overrideBars(twoChoruses(), 6, "E°7"), "C7");
    EXPECT_EQ(bar(study, 6), "E°7");
    EXPECT_EQ(bar(study, 7), "C7");
}

} // namespace
} // namespace earwright
