// Names of lines against what primers of theory and handbooks of jazz practice write. Scales named after
// David Baker, "How to Play Bebop", are from memory; all else is common practice.
#include "core/theory/LineSpelling.h"

#include "tests/core/exchange/WithinBounds.h"

#include <gtest/gtest.h>
#include <numeric>
#include <string>
#include <vector>

namespace earwright {
namespace {

constexpr KeySignature cMajor{};
constexpr KeySignature fMajor{-1};
constexpr KeySignature bFlatMajor{-2};
constexpr KeySignature eFlatMajor{-3};
constexpr KeySignature gMajor{1};
constexpr KeySignature dMajor{2};
constexpr KeySignature aMinor{0, Mode::Minor};

std::vector<LineNote> lineOf(const std::vector<int>& midis, const std::string& chord,
                             const KeySignature& key) {
    std::vector<LineNote> line;
    for (const int midi : midis) {
        line.push_back({midi, line.size(), key, {}, {}});
        if (!chord.empty()) line.back().chord = parseChordSymbol(chord).chord;
    }
    return line;
}

std::string text(const std::vector<LineNote>& line) {
    std::string names;
    for (const LineName& each : spelledLine(line))
        names += (names.empty() ? "" : " ") + toString(each.name);
    return names;
}

std::string names(const std::vector<int>& midis, const std::string& chord = "",
                  const KeySignature& key = cMajor) {
    return text(lineOf(midis, chord, key));
}

std::vector<int> chromatic(int from, int to) {
    std::vector<int> midis;
    for (int midi = from; midi != to; midi += from < to ? 1 : -1)
        midis.push_back(midi);
    midis.push_back(to);
    return midis;
}

std::vector<int> reversed(std::vector<int> midis) {
    return {midis.rbegin(), midis.rend()};
}

// The chromatic scale as theory primers print it in C: sharps up, flats down.
TEST(LineSpelling, TheChromaticScaleRisesInSharpsAndFallsInFlats) {
    EXPECT_EQ(names(chromatic(60, 72)), "C C♯ D D♯ E F F♯ G G♯ A A♯ B C");
    EXPECT_EQ(names(chromatic(72, 60)), "C B B♭ A A♭ G G♭ F E E♭ D D♭ C");
    EXPECT_EQ(names(chromatic(60, 72), "Cmaj7"), "C C♯ D D♯ E F F♯ G G♯ A A♯ B C");
    EXPECT_EQ(names(chromatic(72, 60), "Cmaj7"), "C B B♭ A A♭ G G♭ F E E♭ D D♭ C");
}

// Players read C B C B over E7♯5; B♯ is its fifth where the line leaves the letter.
TEST(LineSpelling, AWhiteKeyWithAnAccidentalDoesNotTurnBackOnItsLetter) {
    constexpr KeySignature aMajor{3};
    EXPECT_EQ(names({72, 71, 72, 71, 68}, "E7#5", aMajor), "C B C B G♯");
    EXPECT_EQ(names({71, 72, 73}, "E7#5", aMajor), "B B♯ C♯");
    EXPECT_EQ(names({59, 60, 58}, "Abm7", eFlatMajor), "B C B♭");
    EXPECT_EQ(names({72, 71, 70}, "", KeySignature{7}), "B♯ B A♯") << "the key has it";
}

// In other keys the notes of the key keep their names, and no sign is written before a white key for it.
TEST(LineSpelling, ChromaticNotesOfOtherKeysStandBesideThoseOfTheKey) {
    EXPECT_EQ(names(chromatic(67, 79), "", gMajor), "G G♯ A A♯ B C C♯ D D♯ E F F♯ G");
    EXPECT_EQ(names(chromatic(77, 65), "", fMajor), "F E E♭ D D♭ C B B♭ A A♭ G G♭ F");
    EXPECT_EQ(names(chromatic(62, 74), "", dMajor), "D D♯ E F F♯ G G♯ A A♯ B C C♯ D");
    EXPECT_EQ(names(chromatic(63, 75), "", eFlatMajor), "E♭ E F F♯ G A♭ A B♭ B C C♯ D E♭");
}

// Common practice, as lead sheets and primers spell these chords.
TEST(LineSpelling, ChordTonesAreSpelledByTheirChord) {
    EXPECT_EQ(names({57, 61, 64, 67, 70}, "A7b9"), "A C♯ E G B♭");
    EXPECT_EQ(names({65, 69, 72, 75}, "F7"), "F A C E♭");
    EXPECT_EQ(names({62, 66, 69, 72, 75}, "D7b9"), "D F♯ A C E♭");
    EXPECT_EQ(names({58, 62, 65, 68, 71}, "Bb7b9"), "B♭ D F A♭ C♭");
    EXPECT_EQ(names({67, 71, 75, 77, 70}, "G7#5#9"), "G B D♯ F A♯");
    EXPECT_EQ(names({59, 62, 65, 69}, "Bm7b5"), "B D F A");
    EXPECT_EQ(names({61, 64, 67, 70}, "C#dim7"), "C♯ E G B♭");
    EXPECT_EQ(names({63, 66, 70, 73}, "Ebm7"), "E♭ G♭ B♭ D♭");
    EXPECT_EQ(names({56, 60, 63, 66}, "Ab7", bFlatMajor), "A♭ C E♭ G♭");
    EXPECT_EQ(names({58, 60}, "C/Bb"), "B♭ C");
}

// A diminished seventh chord on C is printed with A, not B double flat, in charts (common practice).
TEST(LineSpelling, NothingHasADoubleAccidentalByItself) {
    EXPECT_EQ(names({60, 63, 66, 69}, "C°7"), "C E♭ G♭ A");
    EXPECT_EQ(names({64, 68, 71, 74, 79}, "E7#9"), "E G♯ B D G");
    for (int fifths = -7; fifths <= 7; ++fifths)
        for (const char* root : {"C", "C#", "Db", "D#", "Eb", "F#", "Gb", "G#", "Ab", "A#", "Bb", "B", "Cb"})
            for (const char* kind : {"", "7", "m7b5", "7alt", "°7", "maj7", "m(maj7)"})
                for (const LineNote& note : lineOf(chromatic(60, 72), root + std::string(kind), {fifths})) {
                    const PitchName name = spelledLine({note}).front().name;
                    EXPECT_EQ(name.pitchClass(), pitchClassOf(note.midi));
                    EXPECT_LE(std::abs(name.alter), 1) << root << kind << " " << note.midi << " " << fifths;
                }
}

// The scales that Baker calls bebop scales (from memory): the added note of the dominant one is its major
// seventh both ways, of the dorian one the major third, of the major one the raised fifth, which falls as a
// lowered sixth.
TEST(LineSpelling, BebopScalesAreWrittenAsTheirBooksWriteThem) {
    const std::vector<int> dominant{67, 69, 71, 72, 74, 76, 77, 78, 79};
    EXPECT_EQ(names(dominant, "G7"), "G A B C D E F F♯ G");
    EXPECT_EQ(names(reversed(dominant), "G7"), "G F♯ F E D C B A G");
    const std::vector<int> onC{60, 62, 64, 65, 67, 69, 70, 71, 72};
    EXPECT_EQ(names(reversed(onC), "C7", fMajor), "C B B♭ A G F E D C");
    const std::vector<int> dorian{62, 64, 65, 66, 67, 69, 71, 72, 74};
    EXPECT_EQ(names(dorian, "Dm7"), "D E F F♯ G A B C D");
    const std::vector<int> major{60, 62, 64, 65, 67, 68, 69, 71, 72};
    EXPECT_EQ(names(major, "Cmaj7"), "C D E F G G♯ A B C");
    EXPECT_EQ(names(reversed(major), "Cmaj7"), "C B A A♭ G F E D C");
    const std::vector<int> onBFlat{58, 60, 62, 63, 65, 67, 68, 69, 70};
    EXPECT_EQ(names(reversed(onBFlat), "Bb7", bFlatMajor), "B♭ A A♭ G F E♭ D C B♭");
}

// Approach notes from a semitone below and above, and enclosures (common practice).
TEST(LineSpelling, ApproachNotesPointToTheirGoal) {
    EXPECT_EQ(names({63, 64, 67}, "C"), "D♯ E G");
    EXPECT_EQ(names({68, 67}, "C"), "A♭ G");
    EXPECT_EQ(names({61, 59, 60}, "C"), "D♭ B C");
    EXPECT_EQ(names({63, 65, 64}, "C"), "D♯ F E");
    EXPECT_EQ(names({61, 61, 62}, "C"), "C♯ C♯ D");
    EXPECT_EQ(names({61, 61, 60}, "C"), "D♭ D♭ C");
    EXPECT_EQ(names({70, 71, 72}, "Bb7", bFlatMajor), "B♭ B C");
    EXPECT_EQ(names({72, 71, 70}, "Bb7", bFlatMajor), "C C♭ B♭");
    EXPECT_EQ(names({77, 76, 75}, "Bb7", bFlatMajor), "F E E♭");
}

TEST(LineSpelling, ANoteThatLeadsNowhereIsTheDegreeItIs) {
    EXPECT_EQ(names({60, 66, 60}, "C7"), "C F♯ C");
    EXPECT_EQ(names({60, 68, 60}, "C7"), "C A♭ C");
    EXPECT_EQ(names({62, 65, 68, 71, 65}, "Bb7", bFlatMajor), "D F A♭ C♭ F");
    EXPECT_EQ(names({60, 61}), "C C♯") << "without a chord it says where it comes from";
    EXPECT_EQ(names({62, 61}), "D D♭");
    EXPECT_EQ(names({70, 71, 67, 70}, "", bFlatMajor), "B♭ B G B♭") << "nor is a risen white key flat";
    EXPECT_EQ(names({63, 64, 60, 63}, "", {-3, Mode::Major}), "E♭ E C E♭");
    EXPECT_EQ(names({61, 66, 68, 63, 70}), "D♭ F♯ A♭ E♭ B♭") << "the plain names";
}

// Minor keys raise their leading note (every theory primer).
TEST(LineSpelling, AMinorKeyHasItsLeadingNote) {
    EXPECT_EQ(names({69, 68, 69, 64}, "", aMinor), "A G♯ A E");
    EXPECT_EQ(names({64, 66, 68, 69}, "", aMinor), "E F♯ G♯ A");
    EXPECT_EQ(names({69, 67, 65, 64}, "", aMinor), "A G F E");
}

// Over the chords of a minor key as well, as lead sheets of minor tunes print them (common practice).
TEST(LineSpelling, AMinorKeyHasItsLeadingNoteOverItsChords) {
    constexpr KeySignature fMinor{-4, Mode::Minor};
    constexpr KeySignature cSharpMinor{4, Mode::Minor};
    EXPECT_EQ(names({61, 64, 67, 70}, "Dbmaj7", fMinor), "D♭ E G B♭") << "and not F flat";
    EXPECT_EQ(names({65, 64, 63, 62, 61, 60}, "Fm7", fMinor), "F E E♭ D D♭ C");
    EXPECT_EQ(names({61, 60, 61}, "C#m7", cSharpMinor), "C♯ B♯ C♯");
}

// "alt" says that ninth and fifth are altered, not how they are called: a minor key's own third and sixth are
// not printed as sharps over its altered dominant (common practice).
TEST(LineSpelling, TheKeyCallsWhatAnAlteredChordAlters) {
    constexpr KeySignature fMinor{-4, Mode::Minor};
    EXPECT_EQ(names({70, 68, 67, 65, 63, 61, 60}, "C7alt", fMinor), "B♭ A♭ G F E♭ D♭ C");
    EXPECT_EQ(names({71, 70, 68, 67}, "G7alt", bFlatMajor), "B B♭ A♭ G");
    EXPECT_EQ(names({67, 71, 75, 77, 70}, "G7alt"), "G B D♯ F A♯") << "where the key has neither";
    EXPECT_EQ(names({78, 75, 73, 69, 72, 68, 66, 65}, "F7alt", bFlatMajor), "G♭ E♭ D♭ A C A♭ G♭ F")
        << "nor has it, but its minor has, and no line goes from G sharp to G flat";
    EXPECT_EQ(names({72, 68, 69, 63, 64}, "C7alt", fMajor), "C G♯ A D♯ E") << "what rises by a semitone";
    EXPECT_EQ(names({72, 70, 68, 67}, "C7alt", fMajor), "C B♭ A♭ G");
    EXPECT_EQ(names({64, 68, 71, 74, 79}, "E7#9", fMinor), "E G♯ B D G") << "a sign that is written stands";
}

// A whole tone is never on one letter (every theory primer), over the chords whose own names would put it so.
// Over three letters it may be, where both notes are the chord's: F and D♯ over G7alt.
TEST(LineSpelling, NoWholeToneIsWrittenOnOneLetter) {
    EXPECT_EQ(names({80, 77, 75, 71, 74, 70, 68, 66, 67}, "G7alt"), "A♭ F D♯ B D B♭ A♭ F♯ G");
    EXPECT_EQ(names({70, 70, 68}, "G7#9b9"), "B♭ B♭ A♭");
    EXPECT_EQ(names({70, 71, 68}, "G7#9b9"), "A♯ B A♭") << "with a note between it has its own";
    for (int fifths = -7; fifths <= 7; ++fifths)
        for (const char* chord : {"", "G7alt", "C7#9", "B°7", "Ebm7", "A7b9", "F#m7b5", "Dbmaj7", "E7#5"})
            for (int midi = 60; midi < 72; ++midi)
                for (const int by : {-2, 2}) {
                    const auto spelled = spelledLine(lineOf({midi, midi + by}, chord, {fifths}));
                    EXPECT_NE(spelled[0].name.step, spelled[1].name.step) << chord << midi << " " << fifths;
                }
}

TEST(LineSpelling, ANoteOfTheKeyThatIsLedByItIsCalledSoOverAnyChord) {
    constexpr KeySignature fMinor{-4, Mode::Minor};
    EXPECT_EQ(names({63, 61, 60}, "Dm7b5", fMinor), "E♭ D♭ C") << "though D is in the chord";
}

// B flat is the seventh degree of B°7, and in F it is the fourth of the key: a line that goes on in the key
// reads on in it (common practice). What rises by semitones to a chord tone, or lies around one, is raised.
TEST(LineSpelling, ANoteOfTheKeyThatGoesOnByAToneInTheKeyIsCalledSoOverAnyChord) {
    EXPECT_EQ(names({69, 70, 72}, "B°7", fMajor), "A B♭ C");
    EXPECT_EQ(names({70, 70, 72, 74}, "B°7", fMajor), "B♭ B♭ C D");
    EXPECT_EQ(names({72, 70, 72}, "E7", fMajor), "C B♭ C");
    EXPECT_EQ(names({63, 65, 67}, "F♯m7b5", {-2, Mode::Minor}), "E♭ F G");
    EXPECT_EQ(names({71, 69}, "Eb7", dMajor), "B A");
    EXPECT_EQ(names({70, 71, 72}, "B°7", fMajor), "A♯ B C");
    EXPECT_EQ(names({70, 72, 71}, "B°7", fMajor), "A♯ C B");
}

// Lines of the blues and over diminished chords that rise between the key's own, as charts print them (common
// practice).
TEST(LineSpelling, ChromaticNotesOverRisingChordsStayRaised) {
    EXPECT_EQ(names({65, 68, 69, 72, 75, 74, 72, 71, 70, 69}, "F7", fMajor), "F G♯ A C E♭ D C B B♭ A");
    EXPECT_EQ(names({70, 74, 77, 80, 79, 77, 76, 77}, "Bb7", fMajor), "B♭ D F A♭ G F E F");
    EXPECT_EQ(names({71, 74, 77, 80, 79, 78, 79, 77}, "B°7", fMajor), "B D F A♭ G F♯ G F");
    EXPECT_EQ(names({61, 64, 67, 70, 69, 68, 69}, "C♯°7", fMajor), "C♯ E G B♭ A G♯ A");
    EXPECT_EQ(names({66, 69, 72, 75, 74, 73, 74}, "F♯°7", fMajor), "F♯ A C E♭ D C♯ D");
}

// A file made to keep us busy: half of each call would look through the whole rest of the line.
TEST(LineSpelling, ALongRunOfOnePitchTakesTimeAsItIsLong) {
    for (const bool hasEnd : {false, true}) {
        std::vector<LineNote> line = lineOf(std::vector<int>(170'000, 61), "", cMajor);
        if (hasEnd) line.back().midi = 62;
        std::vector<LineName> spelled;
        {
            const WithinBounds bounds;
            spelled = spelledLine(line);
        }
        EXPECT_EQ(toString(spelled.front().name), hasEnd ? "C♯" : "D♭");
    }
    const WithinBounds bounds;
    std::vector<LineNote> arrived = lineOf(std::vector<int>(170'000, 61), "", cMajor);
    arrived.front().midi = 60;
    EXPECT_EQ(toString(spelledLine(arrived).back().name), "C♯") << "it says where it comes from";
}

TEST(LineSpelling, TheKeyCallsWhatNoChordToneContradicts) {
    EXPECT_EQ(names({64, 65, 66, 67}, "Em7"), "E F F♯ G");
    EXPECT_EQ(names({72, 71, 70}, "Ebm7"), "C C♭ B♭") << "B is taken by B flat";
    EXPECT_EQ(names({70, 71, 72}, "Ebm7"), "B♭ B C");
    EXPECT_EQ(names({66, 65, 63}, "B7", {6}), "F♯ E♯ D♯") << "the key has E sharp";
}

TEST(LineSpelling, TheKeyCallsItsNotesOverTheDiminishedChordOfItsLeadingNote) {
    constexpr KeySignature cMinor{-3, Mode::Minor};
    constexpr KeySignature gMinor{-2, Mode::Minor};
    constexpr KeySignature fMinor{-4, Mode::Minor};
    EXPECT_EQ(names({60, 63, 62, 59}, "B°7", cMinor), "C E♭ D B");
    EXPECT_EQ(names({72, 70, 69, 66}, "F♯°7", gMinor), "C B♭ A F♯");
    EXPECT_EQ(names({65, 68, 67, 64}, "E°7", fMinor), "F A♭ G E");
}

TEST(LineSpelling, OfADoubleStopEachNoteFindsItsGoal) {
    std::vector<LineNote> line = lineOf({61, 68, 62, 67}, "C", cMajor);
    line[1].moment = 0;
    line[2].moment = line[3].moment = 1;
    EXPECT_EQ(text(line), "C♯ A♭ D G");
}

TEST(LineSpelling, AWishIsTakenAndItsNeighbourFollowsIt) {
    std::vector<LineNote> line = lineOf({70, 71}, "", cMajor);
    EXPECT_EQ(text(line), "A♯ B");
    line[1].wish = PitchName{Step::C, -1};
    EXPECT_EQ(text(line), "B♭ C♭");
    EXPECT_EQ(spelledLine(line)[1].byItself, (PitchName{Step::B, 0}));
}

TEST(LineSpelling, NamesNothingForNoNotesAndEveryPitchOfMidi) {
    EXPECT_TRUE(spelledLine({}).empty());
    for (const LineNote& note : lineOf(chromatic(0, 127), "F#7", gMajor))
        EXPECT_EQ(spelledLine({note}).front().name.pitchClass(), pitchClassOf(note.midi));
}

} // namespace
} // namespace earwright
