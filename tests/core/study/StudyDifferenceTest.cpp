#include "core/study/StudyDifference.h"

#include "core/study/MarkEdits.h"
#include "core/study/MeterEdits.h"
#include "core/study/PlayerEdits.h"
#include "core/study/RecordingEdits.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

using List = std::vector<int>;

TEST(ListChange, KeepsWhatIsBetweenTheCommonEndsAndPutsItBackAndForth) {
    const std::vector<std::pair<List, List>> changes{{{}, {}},
                                                     {{}, {1}},
                                                     {{1, 2, 3}, {1, 3}},
                                                     {{1, 2, 3}, {1, 9, 8, 3}},
                                                     {{1, 2, 3}, {2, 3}},
                                                     {{1, 2, 3}, {1, 2}},
                                                     {{1, 1, 1}, {1, 1}},
                                                     {{1, 1}, {1, 1, 1, 1}},
                                                     {{1, 2}, {2, 1}},
                                                     {{1, 2}, {}}};
    for (const auto& [before, after] : changes) {
        const ListChange<int> change(before, after);
        EXPECT_EQ(change.isNothing(), before == after);
        List list = before;
        change.redo(list);
        EXPECT_EQ(list, after);
        change.undo(list);
        EXPECT_EQ(list, before);
    }
}

TEST(StudyDifference, LeadsFromEitherStudyToTheOtherWhateverChanged) {
    const Study a = fullStudy();
    std::vector<Study> others{eightBarsAt120(),
                              a,
                              setTitle(a, "other"),
                              setMeter(a, {3, 4}),
                              tapBar(a, Seconds(19)),
                              setForm(a, "C7"),
                              overrideBars(a, 2, "G7"),
                              removeSpan(a, a.spans[1].id),
                              removeNote(a, a.notes[0].id),
                              setDivision(a, 9, BeatDivision::Four),
                              setKey(a, 1, KeySignature{4, Mode::Major}),
                              removeLooseEnd(a, a.looseEnds[0].id),
                              setPlayers(a, {Instrument::Voice, StereoPlace::Right}),
                              startBarOneAt(a, Seconds(4)),
                              removeTake(a, a.takes[0].id),
                              chooseTake(a, a.takes[1].id)};
    for (Study b : others) {
        // What is no work is not its business.
        b.recording = a.recording;
        b.practice = a.practice;
        b.earRecord = a.earRecord;
        b.nextId = a.nextId;
        const StudyDifference difference(a, b);
        EXPECT_EQ(difference.isNothing(), a == b);
        EXPECT_EQ(difference.redone(a), b);
        EXPECT_EQ(difference.undone(b), a);
    }
}

TEST(StudyDifference, HowTheUserListensIsNoDifference) {
    EXPECT_TRUE(StudyDifference(fullStudy(), setSpeed(fullStudy(), 1.5)).isNothing());
}

} // namespace
} // namespace earwright
