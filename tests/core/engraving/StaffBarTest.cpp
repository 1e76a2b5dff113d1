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

/// Notes of a quarter each, called by their plain names: B flat wherever they lead.
std::vector<StaffBar> quarters(const std::vector<int>& pitches) {
    Study study;
    for (const int midi : pitches) {
        study.notes.push_back(
            noteAt(study, Beats(static_cast<std::int64_t>(study.notes.size())), Beats(1), midi));
        study.notes.back().pitch.spelling = plainName(midi);
    }
    return barsOf(study);
}

/// "b" for a flat, "n" natural, "#" sharp, "-" where none is shown; reminders in parentheses.
std::string accidentals(const std::vector<StaffBar>& bars) {
    std::string text;
    for (const StaffBar& bar : bars)
        for (const StaffPiece& piece : bar.pieces)
            for (const StaffHead& head : piece.heads) {
                const std::string sign = !head.accidental       ? "-"
                                         : *head.accidental < 0 ? "b"
                                         : *head.accidental > 0 ? "#"
                                                                : "n";
                text += head.isCautionary ? "(" + sign + ")" : sign;
            }
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

// Gould, "Behind Bars", from memory: after a bar line a note that goes back to its unaltered state in the
// same octave is reminded of once.
TEST(Accidentals, RemindOfTheKeyInTheBarBehindAnAlteredNote) {
    EXPECT_EQ(accidentals(quarters({70, 72, 72, 72, 71, 71, 72, 72})), "b---(n)---");
    EXPECT_EQ(accidentals(quarters({66, 67, 67, 67, 67, 67, 65, 65})), "#-----(n)-");
}

TEST(Accidentals, RemindOfNothingWhereTheBarItselfWentBack) {
    EXPECT_EQ(accidentals(quarters({70, 71, 72, 72, 71, 72, 72, 72})), "bn------");
}

TEST(Accidentals, RemindOfNothingInAnotherOctaveNorABarLater) {
    EXPECT_EQ(accidentals(quarters({70, 72, 72, 72, 83, 84, 84, 84})), "b-------");
    EXPECT_EQ(accidentals(quarters({70, 72, 72, 72, 72, 72, 72, 72, 71, 72, 72, 72})), "b-----------");
}

TEST(Accidentals, RemindBehindATieFromTheBarBefore) {
    Study study;
    study.notes.push_back(noteAt(study, Beats(3), Beats(2), 70));
    study.notes.push_back(noteAt(study, Beats(5), Beats(1), 71));
    study.notes.push_back(noteAt(study, Beats(6), Beats(1), 71));
    for (Note& note : study.notes)
        note.pitch.spelling = plainName(note.pitch.midi);
    EXPECT_EQ(accidentals(barsOf(study)), "b-(n)-");
    // Still sounding from two bars before.
    study.notes[0].length = Beats(5);
    study.notes[1].onset = Beats(8);
    study.notes[2].onset = Beats(9);
    EXPECT_EQ(accidentals(barsOf(study)), "b-(n)-");
}

TEST(Accidentals, RemindOfNothingWhereTheKeyHasIt) {
    Study study;
    study.page.keys = {{2, KeySignature{-1, Mode::Major}}};
    study.notes.push_back(noteAt(study, Beats(0), Beats(4), 70));
    study.notes.push_back(noteAt(study, Beats(4), Beats(4), 70));
    study.notes.push_back(noteAt(study, Beats(8), Beats(4), 71));
    for (Note& note : study.notes)
        note.pitch.spelling = plainName(note.pitch.midi);
    EXPECT_EQ(accidentals(barsOf(study)), "b-n") << "B flat is of F major, B natural is not";
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
                   noteAt(study, Beats(1), Beats(1), 64), noteAt(study, Beats(2), Beats(1, 2), 69),
                   noteAt(study, Beats(5, 2), Beats(1, 2), 77)};
    const auto bars = barsOf(study);
    const auto& pieces = bars.front().pieces;
    EXPECT_TRUE(pieces[0].stemUp && pieces[1].stemUp);
    EXPECT_FALSE(pieces[3].stemUp || pieces[4].stemUp);
}

// Common practice: where the highest and the lowest are as far from the middle line, most notes decide; else
// stems go down.
TEST(Stems, OfABeamFollowMostNotesWhereTheFarthestAreEven) {
    const auto isUp = [](const std::vector<int>& pitches, std::int64_t parts = 2) {
        Study study;
        for (const int midi : pitches)
            study.notes.push_back(noteAt(study, Beats(static_cast<std::int64_t>(study.notes.size()), parts),
                                         Beats(1, parts), midi));
        return barsOf(study).front().pieces.front().stemUp;
    };
    // E4 and F5 with A4, C5 with E5: the first four lie lower on the whole.
    EXPECT_TRUE(isUp({64, 69, 69, 77}));
    EXPECT_FALSE(isUp({64, 72, 76, 77}));
    EXPECT_FALSE(isUp({64, 77}));
    EXPECT_FALSE(isUp({77, 72, 72, 64, 65}, 5)) << "three above the line, though the two below lie farther";
}

// Written pitches of transposing instruments (common practice): an alto reads C6 for the sounding E flat 5, a
// trumpet C for B flat, a guitarist an octave more.
TEST(PageView, WritesWhatThePlayerReads) {
    const KeySignature c{};
    EXPECT_EQ(readAs(Reading::EFlat, 75, {Step::E, -1}, c), (ReadPitch{{Step::C, 0}, 6}));
    EXPECT_EQ(readAs(Reading::BFlat, 70, {Step::B, -1}, c), (ReadPitch{{Step::C, 0}, 5}));
    EXPECT_EQ(readAs(Reading::GuitarOctave, 64, {Step::E, 0}, c), (ReadPitch{{Step::E, 0}, 5}));
    EXPECT_EQ(readAs(Reading::Tenor, 58, {Step::B, -1}, c), (ReadPitch{{Step::C, 0}, 5}));
    EXPECT_EQ(readAs(Reading::Baritone, 51, {Step::E, -1}, c), (ReadPitch{{Step::C, 0}, 5}));
    EXPECT_EQ(readAs(Reading::Tenor, KeySignature{-2, Mode::Major}).fifths, 0);
    EXPECT_EQ(readAs(Reading::Baritone, KeySignature{-2, Mode::Major}).fifths, 1);
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("Bb7/D"), c)), "G7/B");
}

// An alto reads B major as A flat major, not G sharp major (common practice); what stands in it follows.
TEST(PageView, CallsNotesAndChordsAsTheTransposedKeyIsCalled) {
    const KeySignature b{5};
    EXPECT_EQ(readAs(Reading::EFlat, b).fifths, -4);
    EXPECT_EQ(toString(readAs(Reading::EFlat, 59, {Step::B, 0}, b).name), "A♭");
    EXPECT_EQ(toString(readAs(Reading::EFlat, 68, {Step::G, 1}, b).name), "F");
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("G#m7"), b)), "Fm7");
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("F#7/A#"), b)), "E♭7/G");
}

TEST(PageView, SparesTheReaderDoubleAccidentals) {
    const KeySignature c{};
    EXPECT_EQ(toString(readAs(Reading::EFlat, 65, {Step::E, 1}, c).name), "D");
    EXPECT_EQ(toString(readAs(Reading::BFlat, 62, {Step::C, 2}, c).name), "D♯♯") << "chosen with two";
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("G#m7"), c)), "Fm7");
    EXPECT_EQ(toString(readAs(Reading::EFlat, parseChordSymbol("F#7/A#"), c)), "E♭7/G");
    EXPECT_EQ(toString(readAs(Reading::BFlat, parseChordSymbol("F#m7"), c)), "G♯m7");
}

TEST(PageView, CountsPlacesFromTheMiddleLine) {
    EXPECT_EQ(staffPosition({{Step::B, 0}, 4}, Clef::Treble), 0);
    EXPECT_EQ(staffPosition({{Step::E, 0}, 4}, Clef::Treble), -4);
    EXPECT_EQ(staffPosition({{Step::D, 0}, 3}, Clef::Bass), 0);
    EXPECT_EQ(staffPosition({{Step::C, 0}, 4}, Clef::Bass), 6);
}

} // namespace
} // namespace earwright
