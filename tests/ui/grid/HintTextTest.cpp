#include "ui/grid/HintText.h"

#include "ui/grid/HelpPainter.h"

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

TEST(HintText, DoesNotPromiseOfTheLineWhatMayBeTheBand) {
    CheckedPlace place = wrongPitch(65, 63);
    place.mayBeBand = true;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
    EXPECT_EQ(said(place, HelpStep::WhichWay),
              "Bar 30, beat 3: the record is probably lower");
    EXPECT_EQ(said(place, HelpStep::HowFar),
              "Bar 30, beat 3: the record is probably 2 semitones lower");
    EXPECT_EQ(said(place, HelpStep::ShowIt),
              "Bar 30, beat 3: the record probably has E♭4; if that is the band, the note is extra");
    EXPECT_EQ(hintMark(hintAt(place, HelpStep::HowFar)).toStdString(), "↓ 2?");
    place.heardMidi = 66;
    EXPECT_EQ(said(place, HelpStep::WhichWay),
              "Bar 30, beat 3: the record is probably higher");
}

TEST(HintText, CountsAMissingNoteFromTheOneBefore) {
    EXPECT_EQ(said(unwritten(67), HelpStep::WhichWay, 65),
              "Bar 30, beat 3: a note is missing, higher than the one before");
    EXPECT_EQ(said(unwritten(67), HelpStep::HowFar, 65),
              "Bar 30, beat 3: a note is missing, 2 semitones above the one before");
    EXPECT_EQ(said(unwritten(67), HelpStep::ShowIt, 65),
              "Bar 30, beat 3: the record has G4, not written yet");
}

TEST(HintText, TellsOfATrillWhichWayThenOverHowMuchThenWithWhichNote) {
    CheckedPlace place;
    place.kind = PlaceKind::OtherTrill;
    place.note = NoteId{1};
    place.writtenMidi = 75;
    place.heardMidi = 76;
    place.trillHeard = 2;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: the record trills farther up");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record trills over 2 semitones");
    EXPECT_EQ(said(place, HelpStep::ShowIt), "Bar 30, beat 3: the record trills up to E5");
    place.doubt = Doubt::Another;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: this note is not certain, listen again");
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: the record may trill farther up");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record may trill over 2 semitones");
    EXPECT_EQ(said(place, HelpStep::ShowIt), "Bar 30, beat 3: the record may trill up to E5");
    place.writtenMidi = 77;
    place.doubt.reset();
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: the record does not trill so far up");
}

TEST(HintText, TellsOfATrillThatIsNotWritten) {
    CheckedPlace place;
    place.kind = PlaceKind::MissingTrill;
    place.note = NoteId{1};
    place.writtenMidi = 74;
    place.heardMidi = 76;
    place.trillHeard = 2;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: the record trills here");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record trills over 2 semitones");
    EXPECT_EQ(said(place, HelpStep::ShowIt), "Bar 30, beat 3: the record trills up to E5");
}

TEST(HintText, SaysThatTheNoteDoesNotBeginHereAndThenWhetherItIsExtraOrMoved) {
    CheckedPlace place;
    place.kind = PlaceKind::NothingThere;
    place.range = {Seconds(2), Seconds(2.2)};
    place.writtenMidi = 65;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: something is off");
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: this note does not begin here");
    EXPECT_EQ(said(place, HelpStep::HowFar),
              "Bar 30, beat 3: this note does not begin here, it may be extra");
    EXPECT_EQ(said(place, HelpStep::ShowIt), said(place, HelpStep::HowFar));
    place.beginsAt = Seconds(1.86);
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: this note does not begin here");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record has this note earlier");
    place.beginsAt = Seconds(2.14);
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record has this note later");
}

TEST(HintText, NamesThePlaceWhereTheNoteBeginsAtTheLastStep) {
    CheckedPlace place;
    place.kind = PlaceKind::NothingThere;
    place.range = {Seconds(2), Seconds(2.2)};
    place.writtenMidi = 65;
    place.beginsAt = Seconds(1.86);
    const Hint shown = hintAt(place, HelpStep::ShowIt);
    EXPECT_EQ(hintText(shown, "Bar 30, beat 3", {{}, "bar 30, beat 2½"}).toStdString(),
              "Bar 30, beat 3: the record has this note 140 ms earlier, at bar 30, beat 2½");
    EXPECT_EQ(hintText(shown, "Bar 30, beat 3").toStdString(),
              "Bar 30, beat 3: the record has this note 140 ms earlier");
    place.beginsAt = Seconds(2.0824);
    EXPECT_TRUE(hintText(hintAt(place, HelpStep::ShowIt), {}).endsWith("82 ms later"));
}

TEST(HintText, DoesNotCallAnUnclearNoteWrongAndSaysWhyItIsUnclear) {
    CheckedPlace place;
    place.kind = PlaceKind::Unclear;
    place.range = {Seconds(2), Seconds(2.05)};
    place.writtenMidi = 65;
    EXPECT_EQ(said(place, HelpStep::SomethingOff), "Bar 30, beat 3: this note is not certain, listen again");
    place.doubt = Doubt::Covered;
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: a stronger sound covers this note");
    EXPECT_EQ(
        said(place, HelpStep::ShowIt),
        "Bar 30, beat 3: a stronger sound covers this note: bring the line into focus, or listen in a band");
    for (const Doubt doubt : {Doubt::Beginning, Doubt::Short, Doubt::Faint, Doubt::Unheard, Doubt::Another}) {
        place.doubt = doubt;
        for (const HelpStep step : {HelpStep::WhichWay, HelpStep::HowFar, HelpStep::ShowIt})
            EXPECT_EQ(said(place, step).find("covers"), std::string::npos) << static_cast<int>(doubt);
    }
    place.doubt = Doubt::Beginning;
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: its pitch sounds, but it is not clear that it "
                                             "begins here: slow it down and listen for its beginning");
    place.beginsAt = Seconds(2.14);
    EXPECT_EQ(said(place, HelpStep::WhichWay),
              "Bar 30, beat 3: its pitch sounds, but it is not clear that it begins here");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: its pitch may begin later");
    EXPECT_EQ(said(place, HelpStep::ShowIt), "Bar 30, beat 3: its pitch may begin 140 ms later");
}

TEST(HintText, OnlyMayHaveAnotherPitchWhereTheWrittenOneIsLikelier) {
    CheckedPlace place = wrongPitch(65, 63);
    place.kind = PlaceKind::Unclear;
    place.doubt = Doubt::Another;
    EXPECT_EQ(said(place, HelpStep::WhichWay), "Bar 30, beat 3: the record may be lower");
    EXPECT_EQ(said(place, HelpStep::HowFar), "Bar 30, beat 3: the record may be 2 semitones lower");
    EXPECT_EQ(said(place, HelpStep::ShowIt),
              "Bar 30, beat 3: the record may have E♭4, but what you wrote is likelier");
}

TEST(HintText, NamesAPitchOnlyAtTheLastStep) {
    for (const HelpStep step : {HelpStep::SomethingOff, HelpStep::WhichWay, HelpStep::HowFar})
        for (const CheckedPlace& place : {wrongPitch(65, 63), unwritten(63)})
            EXPECT_EQ(said(place, step).find("E♭"), std::string::npos) << static_cast<int>(step);
}

TEST(HintText, UsesTheNameThatThePitchHasOnItsChord) {
    const Hint hint = hintAt(wrongPitch(65, 63), HelpStep::ShowIt);
    EXPECT_EQ(hintText(hint, "Bar 1, beat 1", {"D♯4 (♯9)", {}}).toStdString(),
              "Bar 1, beat 1: the record has D♯4 (♯9)");
    EXPECT_EQ(hintText(hint, {}).toStdString(), "The record has E♭4");
}
