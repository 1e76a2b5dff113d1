#include "core/engraving/StaffBar.h"

#include "SampleLines.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

std::vector<StaffBar> barsOf(const Study& study, Reading reading = Reading::Concert,
                             Clef clef = Clef::Treble) {
    const auto line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), 1);
    return staffBars(study, line, *bars, reading, clef);
}

/// Notes of a quarter each.
std::vector<StaffBar> quarters(const std::vector<int>& pitches) {
    Study study;
    for (const int midi : pitches)
        study.notes.push_back(
            noteAt(study, Beats(static_cast<std::int64_t>(study.notes.size())), Beats(1), midi));
    return barsOf(study);
}

/// "b" for a flat, "n" natural, "#" sharp, "-" where none is shown.
std::string accidentals(const std::vector<StaffBar>& bars) {
    std::string text;
    for (const StaffBar& bar : bars)
        for (const StaffPiece& piece : bar.pieces)
            for (const StaffHead& head : piece.heads)
                text += !head.accidental       ? "-"
                        : *head.accidental < 0 ? "b"
                        : *head.accidental > 0 ? "#"
                                               : "n";
    return text;
}

// Common practice, as every handbook of notation states it.
TEST(Accidentals, HoldUntilTheBarEndsAndForTheirOctaveOnly) {
    EXPECT_EQ(accidentals(quarters({70, 70, 71, 70, 70})), "b-nbb");
    EXPECT_EQ(accidentals(quarters({70, 82, 83, 71})), "bbnn");
}

TEST(Accidentals, AreNotRepeatedOverATie) {
    Study study;
    study.notes.push_back(noteAt(study, Beats(3), Beats(2), 70));
    study.notes.push_back(noteAt(study, Beats(5), Beats(1), 70));
    // The second B flat of bar 2 needs its own: the tied one sets none there.
    EXPECT_EQ(accidentals(barsOf(study)), "b-b");
}

TEST(Stems, PointUpBelowTheMiddleLineAndDownOnItAndAbove) {
    const auto bars = quarters({69, 71, 72, 64});
    const auto& pieces = bars.front().pieces;
    EXPECT_TRUE(pieces[0].stemUp);
    EXPECT_FALSE(pieces[1].stemUp);
    EXPECT_FALSE(pieces[2].stemUp);
    EXPECT_TRUE(pieces[3].stemUp);
}

TEST(Stems, OfABeamFollowTheNoteFarthestFromTheMiddle) {
    Study study;
    // B4 and E4 below: up; A4 and F5: down.
    study.notes = {noteAt(study, Beats(0), Beats(1, 2), 71), noteAt(study, Beats(1, 2), Beats(1, 2), 64),
                   noteAt(study, Beats(1), Beats(1, 2), 69), noteAt(study, Beats(3, 2), Beats(1, 2), 77)};
    const auto bars = barsOf(study);
    const auto& pieces = bars.front().pieces;
    EXPECT_TRUE(pieces[0].stemUp && pieces[1].stemUp);
    EXPECT_FALSE(pieces[2].stemUp || pieces[3].stemUp);
}

// Written pitches of transposing instruments (common practice): an alto reads C6 for the sounding E flat 5, a
// trumpet C for B flat, a guitarist an octave more.
TEST(PageView, WritesWhatThePlayerReads) {
    EXPECT_EQ(readAs(Reading::EFlat, 75, {Step::E, -1}), (ReadPitch{{Step::C, 0}, 6}));
    EXPECT_EQ(readAs(Reading::BFlat, 70, {Step::B, -1}), (ReadPitch{{Step::C, 0}, 5}));
    EXPECT_EQ(readAs(Reading::GuitarOctave, 64, {Step::E, 0}), (ReadPitch{{Step::E, 0}, 5}));
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("Bb7/D"))), "G7/B");
}

TEST(PageView, CountsPlacesFromTheMiddleLine) {
    EXPECT_EQ(staffPosition({{Step::B, 0}, 4}, Clef::Treble), 0);
    EXPECT_EQ(staffPosition({{Step::E, 0}, 4}, Clef::Treble), -4);
    EXPECT_EQ(staffPosition({{Step::D, 0}, 3}, Clef::Bass), 0);
    EXPECT_EQ(staffPosition({{Step::C, 0}, 4}, Clef::Bass), 6);
}

} // namespace
} // namespace earwright
