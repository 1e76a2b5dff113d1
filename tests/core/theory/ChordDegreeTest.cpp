#include "core/theory/ChordDegree.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

Chord chordOf(const std::string& text) {
    const ChordSymbol symbol = parseChordSymbol(text);
    EXPECT_TRUE(symbol.chord) << text;
    return symbol.chord.value_or(Chord{});
}

/// Labels of pitches above middle C's octave, as "1 3 5".
std::string degrees(const std::vector<int>& midis, const std::string& chord) {
    std::string text;
    for (const int midi : midis)
        text += (text.empty() ? "" : " ") + degreeOf(midi, chordOf(chord)).label;
    return text;
}

std::string names(const std::vector<int>& midis, const std::string& chord) {
    std::string text;
    for (const int midi : midis)
        text += (text.empty() ? "" : " ") + toString(degreeOf(midi, chordOf(chord)).name);
    return text;
}

const std::vector<int> allTwelve{60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70, 71};
const std::vector<int> dFlatMajorSeventh{61, 65, 68, 72};
const std::vector<int> aFlatMajorSeventh{68, 72, 75, 79};

// Common practice, as the trade states it.
TEST(ChordDegree, DFlatMajorSeventhOverEFlatSevenIsFlatSevenNineElevenThirteen) {
    EXPECT_EQ(degrees(dFlatMajorSeventh, "Eb7"), "♭7 9 11 13");
    EXPECT_EQ(names(dFlatMajorSeventh, "Eb7"), "D♭ F A♭ C");
}

// Common practice.
TEST(ChordDegree, AFlatMajorSeventhOverFMinorSevenIsFlatThreeFiveFlatSevenNine) {
    EXPECT_EQ(degrees(aFlatMajorSeventh, "Fm7"), "♭3 5 ♭7 9");
    EXPECT_EQ(names(aFlatMajorSeventh, "Fm7"), "A♭ C E♭ G");
}

// Common practice.
TEST(ChordDegree, TheMajorTriadWithNineAndSixIsTheMajorPentatonic) {
    std::vector<int> scale;
    for (const int interval : chordOf("C6/9").intervals())
        scale.push_back(interval % 12);
    std::sort(scale.begin(), scale.end());
    // C D E G A.
    EXPECT_EQ(scale, (std::vector<int>{0, 2, 4, 7, 9}));
    EXPECT_EQ(degrees({60, 62, 64, 67, 69}, "C6/9"), "1 9 3 5 6");
}

// Common practice.
TEST(ChordDegree, EachKindOfChordHasItsOwnNamesForTheTwelve) {
    EXPECT_EQ(degrees(allTwelve, "C7"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "Cmaj7"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "Cm7"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C7#9"), "1 ♭9 9 ♯9 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "Cm7b5"), "1 ♭9 9 ♭3 3 11 ♭5 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C°7"), "1 ♭9 9 ♭3 3 11 ♭5 5 ♭13 °7 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C7#5"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♯5 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C7alt"), "1 ♭9 9 ♯9 3 11 ♭5 5 ♯5 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C7#11"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C7sus4"), "1 ♭9 9 ♭3 3 4 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "Csus2"), "1 ♭9 2 ♭3 3 11 ♯11 5 ♭13 13 ♭7 7");
    EXPECT_EQ(degrees(allTwelve, "C6"), "1 ♭9 9 ♭3 3 11 ♯11 5 ♭13 6 ♭7 7");
}

TEST(ChordDegree, PitchesAreSpelledFromTheChord) {
    EXPECT_EQ(names({60}, "Dbmaj7"), "C");
    EXPECT_EQ(names({66}, "Ebm7"), "G♭");
    EXPECT_EQ(names({66}, "B7"), "F♯");
    EXPECT_EQ(names({63}, "B7"), "D♯");
    EXPECT_EQ(names({63}, "Cm7"), "E♭");
    EXPECT_EQ(names({63}, "C7#9"), "D♯");
    EXPECT_EQ(names({66}, "C7#11"), "F♯");
    EXPECT_EQ(names({66}, "Cm7b5"), "G♭");
    EXPECT_EQ(names({69}, "C°7"), "B♭♭");
}

TEST(ChordDegree, ASpellingBeyondDoubleAccidentalsFallsBackToThePlainName) {
    // The diminished seventh above C flat would be B triple flat.
    EXPECT_EQ(names({68}, "Cb°7"), "A♭");
}

TEST(ChordDegree, EverySpellingNamesItsPitchOnEveryRootAndChord) {
    for (const char* root :
         {"C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "Cb", "Fb", "B#"})
        for (const char* kind :
             {"", "m7", "7", "maj7", "°7", "ø", "7alt", "7#9", "+", "6/9", "7sus4", "sus2"})
            for (int midi = 48; midi < 60; ++midi) {
                const ChordDegree degree = degreeOf(midi, chordOf(std::string(root) + kind));
                EXPECT_EQ(degree.name.pitchClass(), pitchClassOf(midi)) << root << kind << " " << midi;
            }
}

TEST(ChordDegree, ChordTonesAreThoseTheSymbolNames) {
    const auto tones = [](const std::string& chord) {
        std::string text;
        for (const int midi : allTwelve) {
            const ChordDegree degree = degreeOf(midi, chordOf(chord));
            if (degree.isChordTone) text += (text.empty() ? "" : " ") + degree.label;
        }
        return text;
    };
    EXPECT_EQ(tones("C7"), "1 3 5 ♭7");
    EXPECT_EQ(tones("C13b9"), "1 ♭9 3 5 13 ♭7");
    EXPECT_EQ(tones("C°7"), "1 ♭3 ♭5 °7");
    EXPECT_EQ(tones("Csus4"), "1 4 5");
    EXPECT_EQ(tones("C6"), "1 3 5 6");
    EXPECT_EQ(tones("C/Bb"), "1 3 5 ♭7");
}

TEST(ChordDegree, OctavesMakeNoDifference) {
    for (int midi = -12; midi < 128; ++midi)
        EXPECT_EQ(degreeOf(midi, chordOf("Ab7b9")), degreeOf(midi + 12, chordOf("Ab7b9")));
}

TEST(ChordDegree, NamesWhatIsHeardByTheChordWhereItIsOneOfItsTones) {
    const auto heard = [](const char* symbol, int midi) {
        return toString(nameHeardOn(midi, *parseChordSymbol(symbol).chord));
    };
    EXPECT_EQ(heard("A7", 61), "C♯");
    EXPECT_EQ(heard("Gb7", 66), "G♭");
    EXPECT_EQ(heard("D/F#", 66), "F♯");
    EXPECT_EQ(heard("F#m", 60), "C") << "no B♯, which is none of its tones";
    EXPECT_EQ(heard("C°7", 69), "A") << "no double flat";
}

} // namespace
} // namespace earwright
