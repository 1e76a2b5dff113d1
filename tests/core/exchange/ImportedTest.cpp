// What a file from elsewhere becomes is a study that can be kept and opened again.
#include "core/exchange/Imported.h"

#include "core/study/Limits.h"
#include "core/study/StudyFile.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Imported, HasGraceNotesOnlyWhereANoteCouldBe) {
    Imported imported;
    ForeignNote high{Beats(0), Beats(1), Pitch{highestMidi, {}}};
    high.phrasing.graceNotes = {highestMidi + 1, highestMidi - 1};
    ForeignNote low{Beats(1), Beats(2), Pitch{lowestMidi, {}}};
    low.phrasing.graceNotes = {lowestMidi - 1};
    addLine(imported, {high, low});
    ASSERT_EQ(imported.study.notes.size(), 2u);
    EXPECT_EQ(imported.study.notes[0].phrasing.graceNotes, std::vector{highestMidi - 1});
    EXPECT_TRUE(imported.study.notes[1].phrasing.graceNotes.empty());
    EXPECT_EQ(imported.leftOut,
              std::vector<std::string>{"Grace notes beyond what a note here can have were left out."});
    const auto back = StudyFile::parse(StudyFile::text(imported.study), "line.study");
    EXPECT_TRUE(back.ok()) << describe(back.error());
}

} // namespace
} // namespace earwright
