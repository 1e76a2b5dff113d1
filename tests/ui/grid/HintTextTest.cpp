#include "ui/grid/HintText.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

/// What the ladder lets through at a step, worded.
std::string said(const CheckedPlace& place, HelpStep step, std::optional<int> before = std::nullopt) {
    return hintText(hintAt(place, step, before), "Bar 30, beat 3").toStdString();
}

CheckedPlace wrongPitch(int written, int heard) {
    CheckedPlace place;
    place.kind = PlaceKind::WrongPitch;
    place.note = NoteId{1};
    place.writtenMidi = written;
    place.heardMidi = heard;
    return place;
}

CheckedPlace unwritten(int heard) {
    CheckedPlace place;
    place.kind = PlaceKind::Unwritten;
    place.heardMidi = heard;
    return place;
}

} // namespace

TEST(HintText, StartsWithNoMoreThanThePlace) {
    for (const CheckedPlace& place : {wrongPitch(65, 63), unwritten(65)})
        EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
}

TEST(HintText, TellsTheWayThenTheDistanceThenThePitch) {
    EXPECT_EQ(said(wrongPitch(65, 63), HelpStep::WhichWay), "Bar 30, beat 3: the record is lower");
    EXPECT_EQ(said(wrongPitch(65, 63), HelpStep::HowFar), "Bar 30, beat 3: the record is 2 semitones lower");
    EXPECT_EQ(said(wrongPitch(65, 66), HelpStep::HowFar), "Bar 30, beat 3: the record is 1 semitone higher");
    EXPECT_EQ(said(wrongPitch(65, 63), HelpStep::ShowIt), "Bar 30, beat 3: the record has E♭4");
}

TEST(HintText, CountsAMissingNoteFromTheOneBefore) {
    EXPECT_EQ(said(unwritten(67), HelpStep::WhichWay, 65),
              "Bar 30, beat 3: a note is missing, higher than the one before");
    EXPECT_EQ(said(unwritten(67), HelpStep::HowFar, 65),
              "Bar 30, beat 3: a note is missing, 2 semitones above the one before");
    EXPECT_EQ(said(unwritten(67), HelpStep::ShowIt, 65),
              "Bar 30, beat 3: the record has G4, not written yet");
}

TEST(HintText, SaysThatNothingBeginsAndThenWhetherTheNoteIsExtraOrMoved) {
    CheckedPlace place;
    place.kind = PlaceKind::NothingThere;
    place.range = {Seconds(2), Seconds(2.2)};
    place.writtenMidi = 65;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: no note of the line begins here");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: nothing begins here, the note may be extra");
    place.beginsAt = Seconds(1.86);
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: no note of the line begins here");
    EXPECT_EQ(said(place, HelpStep::HowFar),
              "Bar 30, beat 3: nothing begins here, the record has it earlier");
    place.beginsAt = Seconds(2.14);
    EXPECT_EQ(said(place, HelpStep::ShowIt), "Bar 30, beat 3: nothing begins here, the record has it later");
}

TEST(HintText, NamesAPitchOnlyAtTheLastStep) {
    for (const HelpStep step : {HelpStep::SomethingOff, HelpStep::WhichWay, HelpStep::HowFar})
        for (const CheckedPlace& place : {wrongPitch(65, 63), unwritten(63)})
            EXPECT_EQ(said(place, step).find("E♭"), std::string::npos) << static_cast<int>(step);
}

TEST(HintText, UsesTheNameThatThePitchHasOnItsChord) {
    const Hint hint = hintAt(wrongPitch(65, 63), HelpStep::ShowIt);
    EXPECT_EQ(hintText(hint, "Bar 1, beat 1", "♯9 D♯4").toStdString(),
              "Bar 1, beat 1: the record has ♯9 D♯4");
    EXPECT_EQ(hintText(hint, {}).toStdString(), "The record has E♭4");
}
