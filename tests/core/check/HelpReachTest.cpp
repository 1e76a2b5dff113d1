#include "core/check/HelpReach.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Beats of half a second from 0 s on.
Study beats() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}});
    return study;
}

CheckedNote note(double from, double to) {
    CheckedNote written;
    written.range = {Seconds(from), Seconds(to)};
    return written;
}

UnwrittenSound soundAt(double time) {
    return {{Seconds(time), Seconds(time + 0.1)}, 60, 0.9};
}

TEST(HelpReach, KeepsSoundsWithinABeatOfAWrittenNote) {
    PhraseCheck check;
    check.notes = {note(4.0, 4.5)};
    check.unwritten = {soundAt(3.5), soundAt(4.2), soundAt(5.0)};
    const ReachedCheck reached = withinReach(check, beats());
    EXPECT_EQ(reached.check.unwritten.size(), 3u);
    EXPECT_EQ(reached.furtherOn, 0);
}

TEST(HelpReach, LeavesTheRestOfAPhraseWithOneNoteToTheEar) {
    PhraseCheck check;
    check.notes = {note(4.0, 4.25)};
    for (double time = 4.25; time < 12; time += 0.25)
        check.unwritten.push_back(soundAt(time));
    const ReachedCheck reached = withinReach(check, beats());
    // A beat after its end lasts to 4.75 s: the eighths at 4.25, 4.5 and 4.75.
    EXPECT_EQ(reached.check.unwritten.size(), 3u);
    EXPECT_EQ(reached.furtherOn, 28);
    EXPECT_EQ(reached.check.notes, check.notes);
}

TEST(HelpReach, FollowsTheBeatWhereTheBandSlowsDown) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(4)}});
    PhraseCheck check;
    check.notes = {note(4.0, 4.25)};
    check.unwritten = {soundAt(5.2)};
    EXPECT_EQ(withinReach(check, study).furtherOn, 0);
    EXPECT_EQ(withinReach(check, beats()).furtherOn, 1);
}

TEST(HelpReach, LeavesAllToTheEarWhereNothingIsWritten) {
    PhraseCheck check;
    check.unwritten = {soundAt(1), soundAt(2)};
    EXPECT_EQ(withinReach(check, beats()).furtherOn, 2);
}

} // namespace
} // namespace earwright
