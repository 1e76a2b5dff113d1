// What has to be on one string, and what cannot share one.
#include "tests/core/engraving/FingeredLine.h"

#include <cstdlib>
#include <gtest/gtest.h>
#include <random>
#include <set>

namespace earwright {
namespace {

using namespace tests;

TEST(SharedStrings, KeepsASlurOnOneString) {
    // The box above changes the string between A and C.
    std::vector<Note> notes = lineOf({52, 55, 57, 60, 62, 64, 67});
    const Frets picked = guitar(notes);
    EXPECT_NE(picked[2].first, picked[3].first);
    notes[3].phrasing.slurred = true;
    const Frets slurred = guitar(notes);
    EXPECT_EQ(slurred[2].first, slurred[3].first);
}

TEST(SharedStrings, KeepsASlideToTheNextNoteOnOneString) {
    std::vector<Note> notes = lineOf({52, 55, 57, 60, 62, 64, 67});
    EXPECT_NE(guitar(notes)[2].first, guitar(notes)[3].first);
    notes[2].phrasing.slidesToNext = true;
    const Frets frets = guitar(notes);
    EXPECT_EQ(frets[2].first, frets[3].first);
}

TEST(SharedStrings, LetsAHeldNoteRing) {
    // C held while E above it is struck: the E cannot be on the C's string.
    std::vector<Note> notes = lineOf({60, 64});
    notes[0].length = Beats(2);
    const Frets frets = guitar(notes);
    EXPECT_NE(frets[0].first, frets[1].first);
}

TEST(SharedStrings, LaysADoubleStopOnTwoStrings) {
    std::vector<Note> notes = lineOf({62, 67});
    notes[1].onset = notes[0].onset;
    const Fingering fingering = fingered(notes, {});
    ASSERT_EQ(fingering.places.size(), 2u);
    EXPECT_NE(fingering.places.at({1}).string, fingering.places.at({2}).string);
    EXPECT_LE(std::abs(fingering.places.at({1}).fret - fingering.places.at({2}).fret), 5);
}

// As a line is played on a keyboard, each note let go a little after the next was struck: it is fingered as
// if it had been let go in time.
TEST(SharedStrings, HoldsNoStringForWhatOnlyReachesIntoTheNextNote) {
    const std::vector<int> pitches{71, 72, 69, 67, 64, 66, 62, 64, 67, 71, 69, 64, 62, 59, 62, 64};
    const std::vector<Note> clean = lineOf(pitches);
    std::vector<Note> smooth = clean;
    for (Note& note : smooth)
        note.length += Beats(1, 8);
    EXPECT_EQ(guitar(smooth), guitar(clean));
    std::vector<Note> held = clean;
    for (Note& note : held)
        note.length += Beats(1, 2);
    const Frets apart = guitar(held);
    for (std::size_t i = 1; i < apart.size(); ++i)
        EXPECT_NE(apart[i].first, apart[i - 1].first) << i;
}

TEST(SharedStrings, LetsTheNotesOfABrokenChordRing) {
    // C major up and down: five notes that sound together need five strings, and each is struck again where
    // it rings already.
    std::vector<Note> notes = lineOf({48, 52, 55, 60, 64, 60, 55, 52});
    for (Note& note : notes)
        note.phrasing.letRing = true;
    const Frets frets = guitar(notes);
    std::set<int> strings;
    for (std::size_t i = 0; i < 5; ++i)
        strings.insert(frets[i].first);
    EXPECT_EQ(strings.size(), 5u);
    EXPECT_EQ(frets[5], frets[3]);
    EXPECT_EQ(frets[6], frets[2]);
    EXPECT_EQ(frets[7], frets[1]);
}

TEST(SharedStrings, KeepsTheStringOfANoteThatIsHeldUnderSeveral) {
    std::vector<Note> notes = lineOf({57, 64, 62, 60});
    notes[0].length = Beats(2);
    const Frets frets = guitar(notes);
    for (const std::size_t i : {1u, 2u, 3u})
        EXPECT_NE(frets[i].first, frets[0].first) << i;
}

TEST(SharedStrings, SpreadsTheFingersOfADoubleStopOverFourFretsAtMost) {
    std::mt19937 random(11);
    for (int round = 0; round < 60; ++round) {
        const int low = std::uniform_int_distribution(45, 70)(random);
        std::vector<Note> notes = lineOf({low, low + 1 + static_cast<int>(random() % 14)});
        notes[1].onset = notes[0].onset;
        const Fingering fingering = fingered(notes, {});
        if (fingering.places.size() < 2) continue;
        const int one = fingering.places.at({1}).fret;
        const int other = fingering.places.at({2}).fret;
        EXPECT_TRUE(one == 0 || other == 0 || std::abs(one - other) <= 4) << low;
    }
}

TEST(SharedStrings, GivesUpTheLowestOfNotesThatOneStringWouldHaveToShare) {
    std::vector<Note> notes = lineOf({40, 41});
    notes[1].onset = notes[0].onset;
    const Fingering fingering = fingered(notes, {});
    EXPECT_EQ(fingering.unplayable, (std::vector<NoteId>{{1}}));
    EXPECT_EQ(fingering.places.at({2}), (TabPlace{5, 1}));
}

} // namespace
} // namespace earwright
