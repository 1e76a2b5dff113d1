#include "ui/sheet/ChordAnswerText.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr int c = 0, dFlat = 1, d = 2, eFlat = 3, e = 4, f = 5, fSharp = 6, g = 7, a = 9, bFlat = 10;

BassAnswer bass(Verdict verdict, int expected, int played) {
    BassAnswer answer;
    answer.verdict = verdict;
    answer.expected = expected;
    answer.played = played;
    return answer;
}

CheckedChord checked(const char* symbol, const ChordAnswer& answer) {
    return {5, Beats(0), parseChordSymbol(symbol), {Seconds(8), Seconds(10)}, answer};
}

TEST(ChordAnswerText, SaysWhatSpeaksAgainstAChord) {
    ChordAnswer answer;
    answer.verdict = Verdict::Contradicted;
    answer.heard = {d, a, c};
    answer.heardAgainst = {f};
    answer.missing = {fSharp};
    answer.bass = bass(Verdict::Unclear, d, a);
    EXPECT_EQ(chordAnswerText(checked("D7", answer)),
              "Bar 5, D7: contradicted. Heard: D A C; against it: F; missing: F♯; the bass seems to play A.");
}

TEST(ChordAnswerText, SaysWhatSpeaksForAChordInItsOwnSpelling) {
    ChordAnswer answer;
    answer.verdict = Verdict::Supported;
    // G♭ and D♭ are the third and the seventh of E♭m7 (common practice), not F♯ and C♯.
    answer.heard = {eFlat, fSharp, bFlat, dFlat};
    answer.bass = bass(Verdict::Supported, eFlat, eFlat);
    EXPECT_EQ(chordAnswerText(checked("Ebm7", answer)),
              "Bar 5, E♭m7: supported. Heard: E♭ G♭ B♭ D♭; the bass plays E♭.");
}

TEST(ChordAnswerText, NamesNoNoteByADoubleAccidental) {
    ChordAnswer answer;
    answer.verdict = Verdict::Unclear;
    answer.heard = {c, eFlat, fSharp, a}; // the seventh of C°7 is B double flat
    EXPECT_EQ(chordAnswerText(checked("C°7", answer)), "Bar 5, C°7: unclear. Heard: C E♭ G♭ A.");
}

TEST(ChordAnswerText, NamesNotesThatAreNoneOfTheChordsPlainly) {
    ChordAnswer answer;
    answer.verdict = Verdict::Contradicted;
    answer.heardAgainst = {bFlat};
    answer.bass = bass(Verdict::Contradicted, fSharp, c);
    EXPECT_EQ(chordAnswerText(checked("F#m", answer)),
              "Bar 5, F♯m: contradicted, its bass contradicted. Against it: B♭; the bass plays C, not F♯.");
}

TEST(ChordAnswerText, SaysWhatTheBassPlaysInsteadOfWhatStandsAfterTheSlash) {
    ChordAnswer answer;
    answer.verdict = Verdict::Supported;
    answer.heard = {c, e};
    answer.bass = bass(Verdict::Contradicted, g, e);
    EXPECT_EQ(chordAnswerText(checked("C/G", answer)),
              "Bar 5, C/G: supported, its bass contradicted. Heard: C E; the bass plays E, not G.");
    answer.bass = bass(Verdict::Supported, g, g);
    EXPECT_EQ(chordAnswerText(checked("C/G", answer)),
              "Bar 5, C/G: supported. Heard: C E; the bass plays G.");
    // Both are strong as the chord begins.
    answer.bass = bass(Verdict::Supported, g, c);
    EXPECT_EQ(chordAnswerText(checked("C/G", answer)),
              "Bar 5, C/G: supported. Heard: C E; the bass plays G and C.");
}

TEST(ChordAnswerText, SaysSoWhereTooLittleIsHeard) {
    EXPECT_EQ(chordAnswerText(checked("C7", {})),
              "Bar 5, C7: unclear. Too little of comping and bass is heard here.");
}

TEST(ChordAnswerText, CountsTheAnswers) {
    ChordAnswer good, bad;
    good.verdict = Verdict::Supported;
    bad.verdict = Verdict::Contradicted;
    // The bass counts with its chord.
    ChordAnswer overAnother = good;
    overAnother.bass = bass(Verdict::Contradicted, g, e);
    EXPECT_EQ(chordCountText({checked("C/G", overAnother)}),
              "1 chord: 0 supported, 0 unclear, 1 contradicted.");
    EXPECT_EQ(chordCountText({checked("C", good), checked("F", {}), checked("G", good), checked("E", bad)}),
              "4 chords: 2 supported, 1 unclear, 1 contradicted.");
    EXPECT_EQ(chordCountText({checked("C", good)}), "1 chord: 1 supported, 0 unclear, 0 contradicted.");
}

} // namespace
} // namespace earwright::ui
