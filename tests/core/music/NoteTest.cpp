#include "core/music/Note.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(Note, SoundsSofterWhenGhostedAndLouderWhenAccented) {
    Note plain;
    Note ghosted = plain;
    ghosted.phrasing.ghosted = true;
    Note accented = plain;
    accented.phrasing.accented = true;
    EXPECT_EQ(plain.soundingLoudness(), plain.loudness);
    EXPECT_LT(ghosted.soundingLoudness(), plain.loudness / 2);
    EXPECT_NEAR(accented.soundingLoudness(), plain.loudness * 4 / 3, 0.02);
}

TEST(Note, SoundsNoLouderThanItCan) {
    Note note;
    note.loudness = 0.95;
    note.phrasing.accented = true;
    EXPECT_EQ(note.soundingLoudness(), 1.0);
}

TEST(Note, EndsWhereItsLengthRunsOut) {
    Note note;
    note.onset = Beats(7, 2);
    note.length = Beats(2, 3);
    EXPECT_EQ(note.end(), Beats(25, 6));
    EXPECT_EQ(note.range(), (Range{Beats(7, 2), Beats(25, 6)}));
}

} // namespace
} // namespace earwright
