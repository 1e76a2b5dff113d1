#include "core/study/FingeringEdits.h"

#include "core/study/History.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(FingeringEdits, PinANoteToAStringAndLetItGoAgain) {
    const Study study = fullStudy();
    const NoteId id = study.notes.front().id;
    const Study pinned = pinString(study, id, 2);
    EXPECT_EQ(pinned.note(id)->pinnedString, 2);
    EXPECT_EQ(pinString(pinned, id, std::nullopt), study);
    EXPECT_EQ(pinString(study, id, -1), study);
    EXPECT_EQ(pinString(study, id, 8), study);
    EXPECT_EQ(pinString(study, {999999}, 1), study);
}

TEST(FingeringEdits, TakeAnyTuningThatCanBePlayed) {
    const Study study = fullStudy();
    const StringTuning bass{{43, 38, 33, 28}, 20, 0};
    EXPECT_EQ(setTuning(study, bass).tuning, bass);
    EXPECT_EQ(setTuning(study, {{}, 22, 0}), study);
    EXPECT_EQ(setTuning(study, {{64}, 22, 22}), study);
}

TEST(FingeringEdits, CanBeTakenBack) {
    const Study study = fullStudy();
    History history(study);
    history.apply("strings",
                  setTuning(pinString(study, study.notes.front().id, 1), {{43, 38, 33, 28}, 20, 0}));
    EXPECT_NE(history.present(), study);
    history.undo();
    EXPECT_EQ(history.present(), study);
}

} // namespace
} // namespace earwright
