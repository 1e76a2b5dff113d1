#include "core/study/DivisionEdits.h"

#include "core/study/NoteEdits.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(DivisionEdits, ABeatIsInTwoUntilToldOtherwise) {
    const Study study = setDivision({}, -3, BeatDivision::Three);
    EXPECT_EQ(study.divisionOf(-3), BeatDivision::Three);
    EXPECT_EQ(study.divisionOf(-2), BeatDivision::Two);
    EXPECT_EQ(setDivision(study, -3, BeatDivision::Two), Study{});
}

TEST(DivisionEdits, NotesStayWhereTheyAre) {
    const Study study = addNote({}, {Pitch{60, {}}, Beats(1, 2), Beats(1, 2)}).study;
    EXPECT_EQ(setDivision(study, 0, BeatDivision::Three).notes, study.notes);
}

} // namespace
} // namespace earwright
