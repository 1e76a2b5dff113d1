#include "ui/grid/RunText.h"

#include "ui/grid/HintText.h"

#include <array>
#include <gtest/gtest.h>
#include <string>

using namespace earwright;
using namespace earwright::ui;

namespace {

/// The place of a run of three notes.
CheckedPlace run(const OffTogether& together) {
    CheckedPlace place;
    place.kind = together.isMoved() ? PlaceKind::MovedRun : PlaceKind::OctaveRun;
    place.range = {Seconds(2), Seconds(2.2)};
    place.notes = {NoteId{1}, NoteId{2}, NoteId{3}};
    place.note = NoteId{1};
    place.writtenMidi = 63;
    place.together = together;
    if (together.isMoved()) place.beginsAt = Seconds(2) + together.later;
    if (!together.isMoved()) place.heardMidi = 63 + together.semitones;
    return place;
}

/// What the ladder lets through at each of its four steps, worded.
std::array<std::string, 4> said(const CheckedPlace& place, const HintNames& names = {}) {
    const auto at = [&](HelpStep step) {
        return hintText(hintAt(place, step), "Bar 30, beat 3", names).toStdString();
    };
    return {at(HelpStep::SomethingOff), at(HelpStep::WhichWay), at(HelpStep::HowFar), at(HelpStep::ShowIt)};
}

const Range<Seconds> range{Seconds(2), Seconds(3)};

} // namespace

TEST(RunText, TellsOfAMovedRunStepByStep) {
    EXPECT_EQ(said(run({range, 3, Seconds(-0.25), -Beats(1, 2)}), {{}, "bar 30, beat 2½"}),
              (std::array<std::string, 4>{
                  "Bar 30, beat 3: something is off with 3 notes from here on",
                  "Bar 30, beat 3: 3 notes from here on have the right pitches, but begin elsewhere",
                  "Bar 30, beat 3: the record has 3 notes from here on earlier",
                  "Bar 30, beat 3: the record has 3 notes from here on an eighth earlier, the first at "
                  "bar 30, beat 2½"}));
}

TEST(RunText, TellsTheDistanceInMillisecondsWhereItIsNoStepOfThePage) {
    EXPECT_EQ(said(run({range, 3, Seconds(0.12)}))[3],
              "Bar 30, beat 3: the record has 3 notes from here on 120 ms later");
}

TEST(RunText, TellsOfARunInAnotherOctaveStepByStep) {
    EXPECT_EQ(said(run({range, 3, Seconds(0), {}, 12})),
              (std::array<std::string, 4>{
                  "Bar 30, beat 3: something is off with 3 notes from here on",
                  "Bar 30, beat 3: the record has 3 notes from here on in another octave",
                  "Bar 30, beat 3: the record has 3 notes from here on an octave higher",
                  "Bar 30, beat 3: the record has 3 notes from here on an octave higher, the first as E♭5"}));
    EXPECT_EQ(said(run({range, 3, Seconds(0), {}, -12}))[2],
              "Bar 30, beat 3: the record has 3 notes from here on an octave lower");
}

TEST(RunText, KeepsTheNameOfTheFirstNoteForTheLastStep) {
    const auto steps = said(run({range, 3, Seconds(0), {}, 12}), {"D♯5 (♯11)", {}});
    EXPECT_EQ(steps[2], "Bar 30, beat 3: the record has 3 notes from here on an octave higher");
    EXPECT_EQ(steps[3], "Bar 30, beat 3: the record has 3 notes from here on an octave higher, "
                        "the first as D♯5 (♯11)");
}
