#include "core/study/WrittenRun.h"

#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>
#include <initializer_list>

namespace earwright {
namespace {

/// Eighths at these beats of eight bars at 120.
Study withNotesAt(std::initializer_list<Beats> places) {
    Study study = eightBarsAt120();
    for (const Beats& place : places)
        study = addNote(study, {Pitch{60, {}}, place, Beats(1, 2)}).study;
    return study;
}

Study withPhrase(const Study& study, double from, double to) {
    return addSpan(study, SpanKind::Phrase, "", {Seconds(from), Seconds(to)}).study;
}

using Expected = std::optional<Range<Beats>>;

TEST(WrittenRun, ReachesOverWholeBeatsAroundItsNotes) {
    const Study study = withNotesAt({Beats(9, 2), Beats(5), Beats(13, 2), Beats(17, 2)});
    EXPECT_EQ(writtenRunAt(study, Beats(5)), Expected(Range{Beats(4), Beats(9)}));
}

TEST(WrittenRun, EndsWhereABarIsSilent) {
    const Study study = withNotesAt({Beats(0), Beats(4), Beats(17, 2), Beats(9)});
    EXPECT_EQ(writtenRunAt(study, Beats(1)), Expected(Range{Beats(0), Beats(5)}));
    EXPECT_EQ(writtenRunAt(study, Beats(9)), Expected(Range{Beats(8), Beats(10)}));
}

TEST(WrittenRun, IsTheNearestOneWithinABar) {
    const Study study = withNotesAt({Beats(12)});
    EXPECT_EQ(writtenRunAt(study, Beats(9)), Expected(Range{Beats(12), Beats(13)}));
    EXPECT_EQ(writtenRunAt(study, Beats(8)), Expected());
    EXPECT_EQ(writtenRunAt(study, Beats(16)), Expected(Range{Beats(12), Beats(13)}));
    EXPECT_EQ(writtenRunAt(study, Beats(17)), Expected());
    EXPECT_EQ(writtenRunAt(eightBarsAt120(), Beats(0)), Expected());
}

TEST(WrittenRun, LeavesOutWhatIsInAPhraseAndKeepsOutOfIt) {
    const Study study = withNotesAt({Beats(1), Beats(3), Beats(7, 2), Beats(9, 2), Beats(11, 2)});
    // Beats 7/2 to 9/2: one note.
    const Study marked = withPhrase(study, 1.75, 2.25);
    EXPECT_EQ(writtenRunAt(marked, Beats(1)), Expected(Range{Beats(1), Beats(7, 2)}));
    EXPECT_EQ(writtenRunAt(marked, Beats(5)), Expected(Range{Beats(9, 2), Beats(6)}));
    EXPECT_EQ(writtenRunAt(withPhrase(study, 0, 4), Beats(2)), Expected());
}

TEST(WrittenRun, EndsAtAPhraseInWhichNothingIsWritten) {
    const Study marked = withPhrase(withNotesAt({Beats(0), Beats(3)}), 0.75, 1.25);
    EXPECT_EQ(writtenRunAt(marked, Beats(0)), Expected(Range{Beats(0), Beats(1)}));
    EXPECT_EQ(writtenRunAt(marked, Beats(3)), Expected(Range{Beats(3), Beats(4)}));
}

TEST(WrittenRun, EndsWhereAPhraseBeginsThoughItsLastNoteSoundsOn) {
    const Study study = addNote(withNotesAt({Beats(2)}), {Pitch{60, {}}, Beats(3), Beats(2)}).study;
    EXPECT_EQ(writtenRunAt(withPhrase(study, 2, 3), Beats(2)), Expected(Range{Beats(2), Beats(4)}));
}

TEST(WrittenRun, CountsDottedQuartersInSixEight) {
    const Study study = meterFrom(withNotesAt({Beats(19, 2)}), 3, Meter{6, 8});
    EXPECT_EQ(writtenRunAt(study, Beats(9)), Expected(Range{Beats(19, 2), Beats(11)}));
}

} // namespace
} // namespace earwright
