#include "core/study/MarkEdits.h"

#include "core/study/ChartEdits.h"
#include "core/study/DivisionEdits.h"
#include "core/study/MeterEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/SpanEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(MarkEdits, TappingBarsAndBeatsBuildsTheBeatMap) {
    Study study = tapBar(tapBar({}, Seconds(1)), Seconds(3));
    study = tapBeat(study, Seconds(1.5));
    ASSERT_EQ(study.beatMap.marks().size(), 3u);
    EXPECT_EQ(study.beatMap.marks()[1], (BeatMark{Beats(1), Seconds(1.5)}));
    EXPECT_EQ(study.beatMap.marks()[2], (BeatMark{Beats(4), Seconds(3)}));
}

TEST(MarkEdits, AnInsertedMarkTakesTheNearestBeatAndNotOneMarkedAlready) {
    const Study study = eightBarsAt120();
    const Study inserted = insertMark(study, Seconds(2.6));
    ASSERT_EQ(inserted.beatMap.marks().size(), study.beatMap.marks().size() + 1);
    EXPECT_EQ(inserted.beatMap.marks()[2], (BeatMark{Beats(5), Seconds(2.6)}));
    EXPECT_EQ(insertMark(study, Seconds(2.1)), study);
}

TEST(MarkEdits, MovedMarksTakeTheNotesAlongButNotTheSpans) {
    Study study = addNote(eightBarsAt120(), {Pitch{60, {}}, Beats(4), Beats(1)}).study;
    study = addSpan(study, SpanKind::Phrase, "a", {Seconds(2), Seconds(4)}).study;
    const Study moved = moveMark(study, 1, Seconds(2.2));
    EXPECT_DOUBLE_EQ(moved.beatMap.seconds(moved.notes[0].onset).value, 2.2);
    EXPECT_EQ(moved.spans, study.spans);
}

TEST(MarkEdits, IndexesAndTimesThatAreNoneChangeNothing) {
    const Study study = eightBarsAt120();
    EXPECT_EQ(moveMark(study, 99, Seconds(1)), study);
    EXPECT_EQ(removeMark(study, 99), study);
    EXPECT_EQ(tapBar(study, Seconds(std::nan(""))), study);
    EXPECT_EQ(tapBeat({}, Seconds(INFINITY)), Study{});
    EXPECT_EQ(startBarOneAt({}, Seconds(3)), Study{});
}

TEST(MarkEdits, ARemovedMarkLeavesTheCountOfBars) {
    const Study study = removeMark(eightBarsAt120(), 1);
    EXPECT_EQ(study.beatMap.marks()[1].position, Beats(8));
}

/// Eight bars with one of everything that is counted in bars and beats, in bar 3.
Study studyWithBarThree() {
    Study study = addNote(eightBarsAt120(), {Pitch{60, {}}, Beats(26, 3), Beats(1, 3)}).study;
    study = setDivision(study, 8, BeatDivision::Three);
    study = setForm(study, "C7 | F7");
    study = layOutChoruses(study, 1, 2, 2);
    return overrideBars(study, 3, "Bb7 B°7");
}

TEST(MarkEdits, StartingBarOneElsewhereKeepsEverythingWithTheSound) {
    const Study before = studyWithBarThree();
    const Study after = startBarOneAt(before, Seconds(4.1));
    EXPECT_DOUBLE_EQ(after.beatMap.seconds(Beats(0)).value, 4.0);
    EXPECT_EQ(after.notes[0].onset, Beats(2, 3));
    EXPECT_DOUBLE_EQ(after.beatMap.seconds(after.notes[0].onset).value,
                     before.beatMap.seconds(before.notes[0].onset).value);
    EXPECT_EQ(after.divisionOf(0), BeatDivision::Three);
    EXPECT_EQ(after.barChords(1), before.barChords(3));
    EXPECT_EQ(after.barChords(-1), before.barChords(1));
    EXPECT_EQ(after.spans, before.spans);
}

TEST(MarkEdits, BarOneMayStartInTheMiddleOfWhatWasABar) {
    // The first tap was a beat late: what was beat 4 of the pickup is the one.
    const Study after = startBarOneAt(studyWithBarThree(), Seconds(-0.5));
    EXPECT_DOUBLE_EQ(after.beatMap.seconds(Beats(0)).value, -0.5);
    EXPECT_EQ(after.notes[0].onset, Beats(29, 3));
    EXPECT_TRUE(after.chart.overrides.contains(3));
}

TEST(MarkEdits, AnotherMeterKeepsTappedBarLinesAndTheSound) {
    const Study before = studyWithBarThree();
    const Study after = setMeter(before, {3, 4});
    EXPECT_EQ(after.meter, (Meter{3, 4}));
    for (int bar = 1; bar <= 9; ++bar)
        EXPECT_DOUBLE_EQ(after.beatMap.seconds(after.meter.barStart(bar)).value, 2.0 * (bar - 1));
    EXPECT_DOUBLE_EQ(after.beatMap.seconds(after.notes[0].onset).value,
                     before.beatMap.seconds(before.notes[0].onset).value);
    EXPECT_EQ(after.barChords(3).chords[1].withinBar, Beats(2));
    EXPECT_EQ(toText({after.barChords(3)}, after.meter), "Bb7 B°7");
    EXPECT_TRUE(after.divisions.empty());
}

TEST(MarkEdits, TripletsInFourBecomeEighthsInTwelve) {
    const Study after = setMeter(studyWithBarThree(), {12, 8});
    EXPECT_EQ(after.notes[0].onset, Beats(26));
    EXPECT_EQ(after.notes[0].length, Beats(1));
}

TEST(MarkEdits, GoingBackToTheFirstMeterGivesTheSameNotesAndMarks) {
    const Study before = studyWithBarThree();
    const Study back = setMeter(setMeter(setMeter(before, {3, 4}), {5, 4}), {4, 4});
    EXPECT_EQ(back.notes, before.notes);
    EXPECT_EQ(back.beatMap, before.beatMap);
    EXPECT_EQ(back.chart, before.chart);
}

TEST(MarkEdits, WhereBeatsAreMarkedAnotherMeterCountsTheBarsAnew) {
    const Study before = insertMark(studyWithBarThree(), Seconds(0.5));
    const Study after = setMeter(before, {2, 4});
    EXPECT_EQ(after.beatMap, before.beatMap);
    EXPECT_EQ(after.notes, before.notes);
    EXPECT_EQ(after.divisions, before.divisions);
    // Bar 3 of four beats began on the ninth beat, which begins bar 5 of two.
    EXPECT_TRUE(after.chart.overrides.contains(5));
}

TEST(MarkEdits, ATimeSignatureThatIsNoneChangesNothing) {
    const Study study = eightBarsAt120();
    for (const Meter& meter :
         {Meter{0, 4}, Meter{33, 4}, Meter{4, 3}, Meter{4, 0}, Meter{4, 64}, Meter{4, -4}})
        EXPECT_EQ(setMeter(study, meter), study);
}

} // namespace
} // namespace earwright
