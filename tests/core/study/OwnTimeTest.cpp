#include "core/study/OwnTime.h"

#include "core/study/Limits.h"
#include "core/study/LooseEndEdits.h"
#include "core/study/NoteEdits.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

Study lineFrom(const Beats& first) {
    Study study;
    study = addNote(study, {Pitch{60, {}}, first, Beats(1)}).study;
    return addNote(study, {Pitch{62, {}}, Beats(6), Beats(2)}).study;
}

TEST(OwnTime, IsTheUsualTempoWhereNothingIsSaid) {
    const Study study = withOwnTime(lineFrom(Beats(0)));
    ASSERT_TRUE(study.beatMap.hasTempo());
    // 120 quarters a minute: half a second each.
    EXPECT_DOUBLE_EQ(study.beatMap.seconds(Beats(0)).value, 0);
    EXPECT_DOUBLE_EQ(study.beatMap.seconds(Beats(6)).value, 3);
    // The last note ends at beat 8, and two seconds follow.
    EXPECT_EQ(study.recording.length, study.recording.rate.frames(Seconds(6)));
}

TEST(OwnTime, FollowsATempoMarkInTheUnitOfTheMeter) {
    Study line = lineFrom(Beats(0));
    line.meter = {6, 8};
    line.page.tempos = {{Beats(0), "Slow", std::nullopt}, {Beats(0), "", 60.0}};
    // 60 quarters a minute: an eighth lasts half a second.
    EXPECT_DOUBLE_EQ(withOwnTime(line).beatMap.seconds(Beats(6)).value, 3);
}

TEST(OwnTime, BeginsWithThePickupAndTakesNamesAlong) {
    Study line = lineFrom(Beats(-1));
    line.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(8), Seconds(8)}});
    line.spans = {{SpanId{70}, SpanKind::Phrase, "a", {Seconds(0), Seconds(2)}}};
    line = addLooseEnd(line, Seconds(1), "why?").study;
    line.practice.loop = Range{Seconds(1), Seconds(2)};
    const Study study = withOwnTime(line);
    EXPECT_DOUBLE_EQ(study.looseEnds.front().time.value, 5);
    EXPECT_EQ(study.practice.loop, (Range{Seconds(5), Seconds(6)}));
    // The bar before bar 1 lasts four of its beats, a second each.
    EXPECT_DOUBLE_EQ(study.beatMap.seconds(Beats(-4)).value, 0);
    EXPECT_DOUBLE_EQ(study.spans.front().range.begin.value, 4);
    EXPECT_EQ(study.notes, line.notes);
}

TEST(OwnTime, CanBeKeptHoweverLongTheLineIs) {
    Study line = lineFrom(Beats(0));
    line.notes.back().onset = Beats(furthestBeat - 1);
    const Study study = withOwnTime(line);
    ASSERT_TRUE(study.beatMap.hasTempo());
    EXPECT_TRUE(isWithinLimits(study.beatMap));
}

TEST(OwnTime, LeavesAStudyThatHasOneOrNoNotesAlone) {
    EXPECT_EQ(withOwnTime(Study{}), Study{});
    const Study once = withOwnTime(lineFrom(Beats(-1)));
    EXPECT_EQ(withOwnTime(once), once);
}

} // namespace
} // namespace earwright
