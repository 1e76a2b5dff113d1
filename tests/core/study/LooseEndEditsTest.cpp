#include "core/study/LooseEndEdits.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

struct LooseEndEdits : testing::Test {
    StudyWithLooseEnd later = addLooseEnd({}, Seconds(8), "triplet picked?");
    StudyWithLooseEnd earlier = addLooseEnd(later.study, Seconds(3), "grace note");
    Study study = earlier.study;
};

TEST_F(LooseEndEdits, AreKeptByTimeWithIdsOfTheirOwn) {
    ASSERT_EQ(study.looseEnds.size(), 2u);
    EXPECT_EQ(study.looseEnds[0].text, "grace note");
    EXPECT_NE(study.looseEnds[0].id, study.looseEnds[1].id);
}

TEST_F(LooseEndEdits, CanBeRewordedTickedOffOpenedAgainAndRemoved) {
    EXPECT_EQ(retextLooseEnd(study, earlier.id, "two grace notes").looseEnds[0].text, "two grace notes");
    const Study ticked = setLooseEndDone(study, earlier.id, true);
    EXPECT_TRUE(ticked.looseEnds[0].done);
    EXPECT_FALSE(ticked.looseEnds[1].done);
    EXPECT_EQ(setLooseEndDone(ticked, earlier.id, false), study);
    EXPECT_EQ(removeLooseEnd(study, earlier.id).looseEnds.size(), 1u);
    EXPECT_EQ(removeLooseEnd(study, LooseEndId{99}), study);
}

TEST_F(LooseEndEdits, SteppingGoesToTheNextOpenOneAndRoundAtTheEnd) {
    EXPECT_EQ(nextOpenLooseEnd(study, Seconds(0))->id, earlier.id);
    EXPECT_EQ(nextOpenLooseEnd(study, Seconds(3))->id, later.id);
    EXPECT_EQ(nextOpenLooseEnd(study, Seconds(8))->id, earlier.id);
}

TEST_F(LooseEndEdits, SteppingPassesOverWhatIsTickedOff) {
    Study ticked = setLooseEndDone(study, earlier.id, true);
    EXPECT_EQ(nextOpenLooseEnd(ticked, Seconds(0))->id, later.id);
    ticked = setLooseEndDone(ticked, later.id, true);
    EXPECT_EQ(nextOpenLooseEnd(ticked, Seconds(0)), nullptr);
}

} // namespace
} // namespace earwright
