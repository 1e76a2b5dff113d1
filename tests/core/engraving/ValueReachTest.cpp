#include "core/engraving/PageBars.h"

#include <cstdlib>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

/// One bar of notes and rests (negative lengths; "r"), drawn as "4", "8." and so on, ties as "~".
std::string drawn(const std::vector<Beats>& lengths, const Meter& meter) {
    Study study;
    study.meter = meter;
    Beats at(0);
    for (const Beats& length : lengths) {
        const bool isRest = length < Beats(0);
        const Beats beats = isRest ? -length : length;
        if (!isRest) {
            Note note;
            note.id = {study.nextId++};
            note.onset = at;
            note.length = beats;
            study.notes.push_back(note);
        }
        at += beats;
    }
    const auto bars = pageBars(pageLine(study), MeterMap(meter, {}), 1);
    std::string text;
    for (const PagePiece& piece : bars->front().pieces)
        text += std::string(text.empty() ? "" : " ") + (piece.event ? "" : "r") +
                std::to_string(piece.value.denominator) + (piece.value.dotted ? "." : "") +
                (piece.tiedOn ? "~" : "");
    return text;
}

/// The same with lengths in eighths.
std::string bar(const std::vector<int>& eighths, const Meter& meter = {4, 4}) {
    std::vector<Beats> lengths;
    for (const int length : eighths)
        lengths.emplace_back(length * meter.beatUnit, 8);
    return drawn(lengths, meter);
}

// Roemer, "The Art of Music Copying", from memory: whoever reads must see the third of four beats; within
// half a bar the usual syncopations are read at sight.
TEST(ValueReach, WritesTheUsualSyncopationsWithoutTies) {
    EXPECT_EQ(bar({1, 2, 1, 4}), "8 4 8 2");
    EXPECT_EQ(bar({4, 1, 3}), "2 8 4.");
    EXPECT_EQ(bar({3, 1, 3, 1}), "4. 8 4. 8");
    EXPECT_EQ(bar({1, 2, 1}, {2, 4}), "8 4 8");
    EXPECT_EQ(bar({2, 4, 2}), "4 2 4");
    EXPECT_EQ(bar({2, 6}), "4 2.");
}

TEST(ValueReach, ShowsTheMiddleOfTheBar) {
    EXPECT_EQ(bar({3, 2, 3}), "4. 8~ 8 4.");
    EXPECT_EQ(bar({1, 2, 2, 2, 1}), "8 4 8~ 8 4 8");
    EXPECT_EQ(bar({2, 3, 3}), "4 4~ 8 4.");
    EXPECT_EQ(bar({2, 5, 1}), "4 4~ 4. 8");
    EXPECT_EQ(bar({1, 7}), "8 4.~ 2");
    EXPECT_EQ(bar({7, 1}), "2.~ 8 8");
}

TEST(ValueReach, ShowsEveryBeatOfThreeButInTwoDottedQuarters) {
    EXPECT_EQ(bar({3, 3}, {3, 4}), "4. 4.");
    EXPECT_EQ(bar({1, 2, 2, 1}, {3, 4}), "8 8~ 8 8~ 8 8");
    EXPECT_EQ(bar({2, 4}, {3, 4}), "4 2");
}

TEST(ValueReach, TiesSixteenthsOverTheBeat) {
    EXPECT_EQ(drawn({Beats(3, 4), Beats(1), Beats(9, 4)}, {4, 4}), "8. 16~ 8. 16~ 2");
}

// A quarter tied to a dotted eighth, not a dotted quarter tied to a sixteenth (common practice).
TEST(ValueReach, ShowsTheBeatThatANoteEndsInAfterASixteenth) {
    EXPECT_EQ(drawn({Beats(7, 4), Beats(1, 4), Beats(2)}, {4, 4}), "4~ 8. 16 2");
}

// Gould, "Behind Bars", from memory: rests of simple meters have no dots where they are longer than a beat, a
// half rest begins a half of the bar, and there is none in three.
TEST(ValueReach, FillsTheBeatAndThenTheHalfBarWithRests) {
    EXPECT_EQ(bar({1, -7}), "8 r8 r4 r2");
    EXPECT_EQ(bar({-3, 5}), "r4 r8 8~ 2");
    EXPECT_EQ(bar({2, -4, 2}), "4 r4 r4 4");
    EXPECT_EQ(bar({-6, 2}), "r2 r4 4");
    EXPECT_EQ(bar({-4, 2}, {3, 4}), "r4 r4 4");
    EXPECT_EQ(bar({2, -12}, {7, 4}), "4 r4 r2 r2 r4");
}

// Gould, "Behind Bars", from memory: long notes of irregular meters are tied so that the division of the bar
// is seen. 5/4 as three and two, 7/4 as four and three, eighths in twos and a last three are the usual ones
// (common practice).
TEST(ValueReach, ShowsHowABarOfFiveOrSevenIsDivided) {
    EXPECT_EQ(bar({7}, {7, 8}), "2~ 4.");
    EXPECT_EQ(bar({5}, {5, 8}), "4~ 4.");
    EXPECT_EQ(bar({8}, {8, 8}), "1");
    EXPECT_EQ(bar({11}, {11, 8}), "1~ 4.");
    EXPECT_EQ(bar({9}, {9, 8}), "2.~ 4.");
    EXPECT_EQ(bar({10}, {5, 4}), "2.~ 2");
    EXPECT_EQ(bar({12}, {6, 4}), "1.");
    EXPECT_EQ(bar({14}, {7, 4}), "1~ 2.");
    EXPECT_EQ(bar({2, 8, 2}, {6, 4}), "4 2~ 2 4") << "the middle of six";
    EXPECT_EQ(bar({4, 6, 4}, {7, 4}), "2 2~ 4 2");
    EXPECT_EQ(bar({-7}, {7, 8}), "r0") << "a bar's rest";
}

// Whoever writes 3 + 2 + 2 or 2 + 3 does it by the notes that begin there.
TEST(ValueReach, DividesABarAsItsNotesDo) {
    EXPECT_EQ(bar({3, 2, 2}, {7, 8}), "4. 4 4");
    EXPECT_EQ(bar({2, 3, 2}, {7, 8}), "4 4. 4");
    EXPECT_EQ(bar({3, 4}, {7, 8}), "4. 2");
    EXPECT_EQ(bar({3, 2}, {5, 8}), "4. 4");
    EXPECT_EQ(bar({3, 3, 2}, {8, 8}), "4. 4. 4");
    EXPECT_EQ(bar({4, 6}, {5, 4}), "2 2.");
    EXPECT_EQ(bar({4, 4, 2}, {5, 4}), "2 2 4");
    EXPECT_EQ(bar({6, 8}, {7, 4}), "2. 1");
}

// A half rest shows half a bar of two or four beats, and so it does half a group of them (common practice):
// it stood across the middle of the last four of seven.
TEST(ValueReach, ShowsTheHalvesOfAGroupWithRests) {
    EXPECT_EQ(bar({6, 4, -4}, {7, 4}), "2. 2 r2") << "three and four";
    EXPECT_EQ(bar({6, -8}, {7, 4}), "2. r4 r2 r4") << "four and three";
    EXPECT_EQ(bar({6, -4}, {5, 4}), "2. r2");
    EXPECT_EQ(bar({4, 4, -4}, {6, 4}), "2 2 r2");
    EXPECT_EQ(bar({2, 4, -6}, {6, 4}), "4 2 r4 r4 r4");
}

// In a group of two the syncopations of a bar of two, in one of three any place of it, as in 6/8.
TEST(ValueReach, WritesAGroupOfEighthsAsABarOfItsOwn) {
    EXPECT_EQ(drawn({Beats(1, 2), Beats(1), Beats(1, 2), Beats(5)}, {7, 8}), "16 8 16 4~ 4.");
    EXPECT_EQ(bar({2, 2, 1, 2}, {7, 8}), "4 4 8 4");
    EXPECT_EQ(bar({2, -5}, {7, 8}), "4 r4 r4.");
    EXPECT_EQ(bar({-4, 1, -2}, {7, 8}), "r4 r4 8 r8 r8");
    EXPECT_EQ(bar({-1, 6}, {7, 8}), "r8 4~ 2");
}

TEST(ValueReach, GivesEachBeatOfACompoundMeterARestAndHalfATwelveOne) {
    EXPECT_EQ(bar({3, -6}, {9, 8}), "4. r4. r4.");
    EXPECT_EQ(bar({6, -6}, {12, 8}), "2. r2.");
    EXPECT_EQ(bar({3, -6, 3}, {12, 8}), "4. r4. r4. 4.");
}

// Each of the last two thirds of a beat has a rest of its own; the first two are one (handbooks of theory,
// from memory).
TEST(ValueReach, KeepsTheThirdsOfACompoundBeatApartInRests) {
    EXPECT_EQ(bar({1, -5}, {6, 8}), "8 r8 r8 r4.");
    EXPECT_EQ(bar({-2, 1, 1, -2}, {6, 8}), "r4 8 8 r8 r8");
    EXPECT_EQ(bar({2, -1, 3}, {6, 8}), "4 r8 4.");
    EXPECT_EQ(bar({4, -5}, {9, 8}), "4.~ 8 r8 r8 r4.");
}

} // namespace
} // namespace earwright
