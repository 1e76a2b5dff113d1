#include "ui/grid/ChordRows.h"

#include "tests/ui/grid/SampleStudy.h"

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

ChordStretch chordOf(const char* symbol) {
    Study study = emptySample();
    study.chart.form = parseBars(symbol, study.meter);
    return *ChordRows(study, {Beats(0), Beats(4)}).at(Beats(0));
}

std::string rowText(const char* symbol, int midi) {
    const ChordStretch chord = chordOf(symbol);
    const RowName row = rowName(&chord, midi);
    return (row.degree + ' ' + row.name + row.octave).toStdString();
}

} // namespace

TEST(ChordRows, ChangeWhereTheChordsChange) {
    const ChordRows rows(emptySample(), {Beats(8), Beats(16)});
    ASSERT_EQ(rows.stretches().size(), 3u);
    EXPECT_EQ(rows.stretches()[0].range, (Range{Beats(8), Beats(12)}));
    EXPECT_EQ(rows.stretches()[1].symbol->text, "Fm7");
    EXPECT_EQ(rows.stretches()[1].range, (Range{Beats(12), Beats(14)}));
    EXPECT_EQ(rows.stretches()[2].range, (Range{Beats(14), Beats(16)}));
    EXPECT_EQ(rows.at(Beats(13))->symbol->text, "Fm7");
}

TEST(ChordRows, CarryOnAChordFromBeforeTheBarsShown) {
    Study study = emptySample();
    study.chart.form = parseBars("Bb7 | | Eb7 | %", study.meter);
    const ChordRows rows(study, {Beats(4), Beats(12)});
    ASSERT_EQ(rows.stretches().size(), 2u);
    EXPECT_EQ(rows.stretches()[0].symbol->text, "Bb7");
    EXPECT_FALSE(rows.stretches()[0].beginsHere);
    EXPECT_TRUE(rows.stretches()[1].beginsHere);
}

// The chord dictionary of any harmony text: E♭7 is E♭ G B♭ D♭.
TEST(ChordRows, KnowTheTonesOfTheChord) {
    const ChordStretch chord = chordOf("Eb7");
    for (int midi = 60; midi < 72; ++midi) {
        const bool expected = midi == 61 || midi == 63 || midi == 67 || midi == 70;
        EXPECT_EQ(chord.isTone(midi), expected) << midi;
    }
}

// Common practice: a D♭maj7 arpeggio (D♭ F A♭ C) over E♭7 is ♭7 9 11 13.
TEST(ChordRows, NameRowsByDegreePitchAndOctave) {
    EXPECT_EQ(rowText("Eb7", 61), "♭7 D♭4");
    EXPECT_EQ(rowText("Eb7", 65), "9 F4");
    EXPECT_EQ(rowText("Eb7", 68), "11 A♭4");
    EXPECT_EQ(rowText("Eb7", 72), "13 C5");
    EXPECT_EQ(rowText("Bb7", 62), "3 D4");
}

TEST(ChordRows, NeverNameARowByADoubleAccidental) {
    // ♭13 of D♭7 is spelled B♭♭ on paper, 7 of G♯maj7 F𝄪.
    EXPECT_EQ(rowText("Db7", 69), "♭13 A4");
    EXPECT_EQ(rowText("G#maj7", 67), "7 G4");
    EXPECT_EQ(rowText("C°7", 69), "°7 A4");
}

TEST(ChordRows, NameRowsPlainlyWhereNoChordSounds) {
    EXPECT_EQ(rowText("N.C.", 63), " E♭4");
}

TEST(ChordRows, NameRowsPlainlyWithoutAChordThatCanBeRead) {
    const ChordStretch chord = chordOf("??");
    EXPECT_FALSE(chord.canBeRead());
    EXPECT_FALSE(chord.isTone(60));
    EXPECT_TRUE(degreeText(&chord, 60).isEmpty());
    EXPECT_EQ(rowName(&chord, 63).name.toStdString(), "E♭");
    EXPECT_EQ(rowName(nullptr, 63).octave.toStdString(), "4");
}

TEST(ChordRows, AreNoneWithoutBars) {
    EXPECT_EQ(ChordRows().at(Beats(0)), nullptr);
}
