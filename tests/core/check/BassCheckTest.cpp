#include "core/check/BassCheck.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr int c = 0, d = 2, e = 4, g = 7;

/// C major seventh in the middle, E G B C, over a bass that plays four quarters of half a second from 1 s on;
/// none of a quarter where its note is nought.
ChordSound over(const std::vector<int>& bass) {
    AnalysisSound sound{silence(Seconds(4.5)), {}};
    const Range<Seconds> bar{1.0_s, 3.0_s};
    for (std::size_t i = 0; i < bass.size(); ++i) {
        const Seconds at = 1.0_s + 0.5_s * static_cast<double>(i);
        if (bass[i] > 0) addTone(sound.left, {at, at + 0.45_s}, bass[i], 0.2f);
    }
    for (const int midi : {52, 55, 59, 60})
        addTone(sound.left, bar, midi, 0.08f);
    return chordSound(StereoViews(sound, bar), 0, bar, {});
}

BassAnswer answer(const char* symbol, const std::vector<int>& bass) {
    return judgeBass(*parseChordSymbol(symbol).chord, over(bass));
}

TEST(BassCheck, SupportsTheRootUnderASymbolWithoutASlash) {
    const BassAnswer root = answer("Cmaj7", {36, 40, 43, 45});
    EXPECT_EQ(root.verdict, Verdict::Supported);
    EXPECT_EQ(root.expected, c);
    EXPECT_EQ(root.played, c);
    EXPECT_GT(root.score, 0.9);
    EXPECT_GT(root.clearness, 0.5);
}

TEST(BassCheck, SupportsTheBassThatIsWrittenAfterASlash) {
    const BassAnswer third = answer("Cmaj7/E", {40, 43, 40, 36});
    EXPECT_EQ(third.verdict, Verdict::Supported);
    EXPECT_EQ(third.expected, e);
    EXPECT_EQ(third.played, e);
}

TEST(BassCheck, ContradictsAWrittenBassThatIsNotPlayed) {
    for (const char* symbol : {"Cmaj7/G", "Cmaj7/D", "Cmaj7/B"}) {
        const BassAnswer other = answer(symbol, {40, 40, 40, 40});
        EXPECT_EQ(other.verdict, Verdict::Contradicted) << symbol;
        EXPECT_EQ(other.played, e) << symbol;
        EXPECT_LT(other.score, 0.1) << symbol;
    }
}

TEST(BassCheck, NeverContradictsARootByAnotherToneOfItsChord) {
    // A walking bass may begin on any of them (common practice).
    for (const int tone : {40, 43, 35})
        EXPECT_NE(answer("Cmaj7", {tone, tone, tone, tone}).verdict, Verdict::Contradicted) << tone;
    EXPECT_EQ(answer("C6", {33, 33, 33, 33}).verdict, Verdict::Unclear);
    // A triad leaves open which seventh is added.
    EXPECT_EQ(answer("C", {34, 34, 34, 34}).verdict, Verdict::Unclear);
    EXPECT_EQ(answer("Cmaj7", {34, 34, 34, 34}).verdict, Verdict::Contradicted);
}

TEST(BassCheck, ContradictsARootWhereANoteOutsideTheChordIsPlayed) {
    const BassAnswer second = answer("Cmaj7", {38, 38, 38, 38});
    EXPECT_EQ(second.verdict, Verdict::Contradicted);
    EXPECT_EQ(second.played, d);
}

TEST(BassCheck, ListensWhereTheChordBegins) {
    EXPECT_EQ(answer("Cmaj7/G", {43, 36, 40, 36}).played, g);
    EXPECT_EQ(answer("Cmaj7/G", {36, 43, 43, 43}).played, c);
}

TEST(BassCheck, SaysNothingWhereNoBassIsHeard) {
    for (const char* symbol : {"Cmaj7", "Cmaj7/D"}) {
        const BassAnswer none = answer(symbol, {0, 0, 0, 0});
        EXPECT_EQ(none.verdict, Verdict::Unclear) << symbol;
        EXPECT_EQ(none.played, std::nullopt) << symbol;
        EXPECT_EQ(none.score, 0.5) << symbol;
    }
}

} // namespace
} // namespace earwright
