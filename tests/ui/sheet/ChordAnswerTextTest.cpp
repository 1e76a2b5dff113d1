#include "ui/sheet/ChordAnswerText.h"

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

constexpr int c = 0, dFlat = 1, d = 2, eFlat = 3, f = 5, fSharp = 6, a = 9, bFlat = 10;

CheckedChord checked(const char* symbol, const ChordAnswer& answer) {
    return {5, Beats(0), parseChordSymbol(symbol), {Seconds(8), Seconds(10)}, answer};
}

TEST(ChordAnswerText, SaysWhatSpeaksAgainstAChord) {
    ChordAnswer answer;
    answer.verdict = Verdict::Contradicted;
    answer.heard = {d, a, c};
    answer.heardAgainst = {f};
    answer.missing = {fSharp};
    answer.bass = 7;
    EXPECT_EQ(chordAnswerText(checked("D7", answer)),
              "Bar 5, D7: contradicted. Heard: D A C; against it: F; missing: F♯; the bass plays G.");
}

TEST(ChordAnswerText, SaysWhatSpeaksForAChordInItsOwnSpelling) {
    ChordAnswer answer;
    answer.verdict = Verdict::Supported;
    // G♭ and D♭ are the third and the seventh of E♭m7 (common practice), not F♯ and C♯.
    answer.heard = {eFlat, fSharp, bFlat, dFlat};
    answer.ownBass = eFlat;
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
    answer.bass = c;
    EXPECT_EQ(chordAnswerText(checked("F#m", answer)),
              "Bar 5, F♯m: contradicted. Against it: B♭; the bass plays C.");
}

TEST(ChordAnswerText, SaysSoWhereTooLittleIsHeard) {
    EXPECT_EQ(chordAnswerText(checked("C7", {})),
              "Bar 5, C7: unclear. Too little of comping and bass is heard here.");
}

TEST(ChordAnswerText, CountsTheAnswers) {
    ChordAnswer good, bad;
    good.verdict = Verdict::Supported;
    bad.verdict = Verdict::Contradicted;
    EXPECT_EQ(chordCountText({checked("C", good), checked("F", {}), checked("G", good), checked("E", bad)}),
              "4 chords: 2 supported, 1 unclear, 1 contradicted.");
    EXPECT_EQ(chordCountText({checked("C", good)}), "1 chord: 1 supported, 0 unclear, 0 contradicted.");
}

} // namespace
} // namespace earwright::ui
