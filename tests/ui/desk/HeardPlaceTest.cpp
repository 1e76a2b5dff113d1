#include "ui/desk/HeardPlace.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

/// A beat a second from 0 on; a note is written on beat 1 and on the half after it.
class HeardPlaceTest : public testing::Test {
protected:
    void SetUp() override {
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(8), Seconds(8)}});
        write(NoteId{1}, Beats(1));
        write(NoteId{2}, Beats(3, 2));
    }
    void write(NoteId id, const Beats& onset) {
        Note note;
        note.id = id;
        note.onset = onset;
        note.length = Beats(1, 2);
        study.notes.push_back(note);
    }
    Beats placeOf(double seconds) const {
        return heardPlace(study, {Seconds(seconds), Seconds(seconds + 0.1)}).begin;
    }

    Study study;
};

TEST_F(HeardPlaceTest, IsTheHalfForAnEighthThatSwings) {
    for (const double swung : {2.5, 2.55, 2.6, 2.66})
        EXPECT_EQ(placeOf(swung), Beats(5, 2)) << swung;
}

TEST_F(HeardPlaceTest, IsTheBeatForWhatLiesALittleBesideIt) {
    for (const double beside : {2.93, 3.0, 3.05, 3.12})
        EXPECT_EQ(placeOf(beside), Beats(3)) << beside;
}

TEST_F(HeardPlaceTest, IsTheThirdWhereATripletIsWrittenAsTwoEighths) {
    EXPECT_EQ(placeOf(1.34), Beats(4, 3));
    EXPECT_EQ(placeOf(1.66), Beats(5, 3)) << "the half has its note";
    EXPECT_EQ(placeOf(2.34), Beats(7, 3)) << "too early for the half";
}

TEST_F(HeardPlaceTest, IsTheColumnThatTheBeatIsDividedInto) {
    study.divisions[Beats(2)] = BeatDivision::Three;
    EXPECT_EQ(placeOf(2.4), Beats(7, 3));
    EXPECT_EQ(placeOf(2.7), Beats(8, 3));
    study.divisions[Beats(2)] = BeatDivision::Four;
    EXPECT_EQ(placeOf(2.3), Beats(9, 4));
    EXPECT_EQ(placeOf(2.72), Beats(11, 4));
}

TEST_F(HeardPlaceTest, IsTheThirdOfABeatThatIsDividedIntoQuartersAndTheOtherWayRound) {
    study.divisions[Beats(2)] = BeatDivision::Four;
    EXPECT_EQ(placeOf(2.36), Beats(7, 3)) << "not the quarter before it";
    EXPECT_EQ(placeOf(2.69), Beats(8, 3));
    study.divisions[Beats(2)] = BeatDivision::Three;
    EXPECT_EQ(placeOf(2.795), Beats(11, 4)) << "and no sixth";
    EXPECT_EQ(placeOf(2.28), Beats(9, 4));
}

TEST_F(HeardPlaceTest, LastsAtLeastATwelfth) {
    const Range<Beats> brief = heardPlace(study, {Seconds(2.66), Seconds(2.67)});
    EXPECT_GT(brief.end, brief.begin);
    EXPECT_EQ(brief.begin, Beats(5, 2));
}

} // namespace
} // namespace earwright::ui
