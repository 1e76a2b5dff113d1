#include "core/music/ChordChart.h"

#include <gtest/gtest.h>
#include <random>
#include <string>
#include <utility>

namespace earwright {
namespace {

const Meter fourFour{4, 4};
const MeterMap inFour(fourFour);
const Meter threeFour{3, 4};

/// A bar as "beat:symbol beat:symbol", for reading in a test.
std::string told(const BarChords& bar) {
    std::string text;
    for (const PlacedChord& chord : bar.chords)
        text += (text.empty() ? "" : " ") + toString(chord.withinBar) + ":" + chord.symbol.text;
    return text;
}

std::vector<std::string> told(std::string_view text, const Meter& meter = fourFour) {
    std::vector<std::string> bars;
    for (const BarChords& bar : parseBars(text, meter))
        bars.push_back(told(bar));
    return bars;
}

using Bars = std::vector<std::string>;

TEST(ChordChart, BarsLieBetweenStrokesAndTwoChordsShareABar) {
    EXPECT_EQ(told("Bb7 | Eb7 | Bb7 | Fm7 Bb7"), (Bars{"0:Bb7", "0:Eb7", "0:Bb7", "0:Fm7 2:Bb7"}));
}

TEST(ChordChart, WhatDoesNotDivideEvenlyGoesToTheFirstChords) {
    EXPECT_EQ(told("C F G"), (Bars{"0:C 2:F 3:G"}));
    EXPECT_EQ(told("C G", threeFour), (Bars{"0:C 2:G"}));
}

TEST(ChordChart, ASlashTakesAChordsPlace) {
    EXPECT_EQ(told("Bb7 / / F7"), (Bars{"0:Bb7 3:F7"}));
    EXPECT_EQ(told("/ F7"), (Bars{"2:F7"}));
}

TEST(ChordChart, MoreChordsThanBeatsAreSpreadInEqualParts) {
    EXPECT_EQ(told("A B C D E F G A"), (Bars{"0:A 1/2:B 1:C 3/2:D 2:E 5/2:F 3:G 7/2:A"}));
}

TEST(ChordChart, StrokesAtTheEndsOfALineMakeNoBarButOnesWithASpaceBetweenDo) {
    EXPECT_EQ(told("| C | F ||\n| G | C |\n\n"), (Bars{"0:C", "0:F", "0:G", "0:C"}));
    EXPECT_EQ(told("C | | F"), (Bars{"0:C", "", "0:F"}));
    EXPECT_EQ(told("| | F | |"), (Bars{"", "0:F", ""}));
    EXPECT_EQ(told("  \n "), Bars{});
}

TEST(ChordChart, ThePercentSignRepeatsTheBarBefore) {
    EXPECT_EQ(told("C F | % | G\n%"), (Bars{"0:C 2:F", "0:C 2:F", "0:G", "0:G"}));
    EXPECT_EQ(told("% | C"), (Bars{"", "0:C"}));
}

TEST(ChordChart, UnreadableSymbolsAreKept) {
    const std::vector<BarChords> bars = parseBars("N.C. | C", fourFour);
    EXPECT_EQ(bars[0].chords[0].symbol.text, "N.C.");
    EXPECT_FALSE(bars[0].chords[0].symbol.chord);
}

TEST(ChordChart, ABlankInsideASymbolsParenthesesBelongsToIt) {
    const auto bars = parseBars("C7(b9 #11) F7 | Bb7(b9 Eb7 | (G7 C7)", {});
    ASSERT_EQ(bars.size(), 3u);
    ASSERT_EQ(bars[0].chords.size(), 2u);
    EXPECT_EQ(bars[0].chords[0].symbol.text, "C7(b9 #11)");
    EXPECT_EQ(bars[0].chords[0].symbol.chord, parseChordSymbol("C7(b9,#11)").chord);
    // Never closed, or around whole symbols: the blank parts words as ever.
    EXPECT_EQ(bars[1].chords.size(), 2u);
    EXPECT_EQ(bars[2].chords.size(), 2u);
    EXPECT_EQ(parseBars(toText(bars), {}), bars);
}

TEST(ChordChart, TextReadsBackToTheSameBars) {
    for (const Meter& meter : {fourFour, threeFour, Meter{7, 8}, Meter{1, 1}})
        for (const char* text : {"Bb7 | Eb7 | Bb7 | Fm7 Bb7", "| | C | |", "/ C", "A B C D E", "C / / G",
                                 "C F G", "", "| |", "A / / / / / / / / / / / B"}) {
            const auto bars = parseBars(text, meter);
            EXPECT_EQ(parseBars(toText(bars, meter), meter), bars) << text << " in " << meter.beatsPerBar;
        }
    EXPECT_EQ(toText(parseBars("Bb7|Eb7|  Bb7 | Fm7 Bb7", fourFour)), "Bb7 | Eb7 | Bb7 | Fm7 Bb7");
}

TEST(ChordChart, AnyTextAtAllReadsBackOnceItWasRead) {
    std::mt19937 random(11);
    const std::string alphabet("CG7 |||  %/\n\r\t\xff(b\0", 18);
    for (int round = 0; round < 5'000; ++round) {
        std::string text;
        for (auto length = random() % 40; length > 0; --length)
            text += alphabet[random() % alphabet.size()];
        const auto bars = parseBars(text, fourFour);
        EXPECT_EQ(parseBars(toText(bars), fourFour), bars) << text;
        EXPECT_EQ(toText(bars).find('\0'), std::string::npos);
    }
}

TEST(ChordChart, ATextPastedByMistakeIsCutOffAtTwoHundredAndFiftySixWordsABar) {
    std::string words;
    for (int i = 0; i < 10'000; ++i)
        words += "la ";
    EXPECT_EQ(parseBars(words, fourFour).at(0).chords.size(), 256u);
}

ChordChart twoBars(const char* form) {
    return {parseBars(form, fourFour), {}};
}

TEST(ChordChart, TheFormLiesOverEveryChorusAndNowhereElse) {
    const ChordChart chart = twoBars("C7 | F7");
    const std::vector<ChorusBars> choruses{{1, 2}, {5, 2}};
    EXPECT_EQ(told(chart.barChords(2, inFour, choruses)), "0:F7");
    EXPECT_EQ(told(chart.barChords(3, inFour, choruses)), "");
    EXPECT_EQ(told(chart.barChords(5, inFour, choruses)), "0:C7");
    EXPECT_EQ(told(chart.barChords(6, inFour, choruses)), "0:F7");
    EXPECT_EQ(told(chart.barChords(0, inFour, choruses)), "");
}

TEST(ChordChart, AFormShorterThanItsChorusStartsOver) {
    EXPECT_EQ(told(twoBars("C7 | F7").barChords(4, inFour, {{1, 4}})), "0:F7");
}

TEST(ChordChart, AnOverriddenBarWinsInOneChorusOnly) {
    ChordChart chart = twoBars("C7 | F7");
    chart.overrides[4] = parseBars("Bb7", fourFour).front();
    const std::vector<ChorusBars> choruses{{1, 2}, {3, 2}};
    EXPECT_EQ(told(chart.barChords(2, inFour, choruses)), "0:F7");
    EXPECT_EQ(told(chart.barChords(4, inFour, choruses)), "0:Bb7");
}

std::string chordAt(const ChordChart& chart, const Beats& place, const std::vector<ChorusBars>& choruses) {
    const auto symbol = chart.chordAt(place, inFour, choruses);
    return symbol ? symbol->text : "-";
}

TEST(ChordChart, TheChordAtAPlaceIsTheLastOneBeforeItInTheChorus) {
    const ChordChart chart = twoBars("C7 F7 | | / G7 |");
    const std::vector<ChorusBars> choruses{{1, 3}, {4, 3}};
    EXPECT_EQ(chordAt(chart, Beats(0), choruses), "C7");
    EXPECT_EQ(chordAt(chart, Beats(7, 4), choruses), "C7");
    EXPECT_EQ(chordAt(chart, Beats(2), choruses), "F7");
    EXPECT_EQ(chordAt(chart, Beats(9), choruses), "F7");
    EXPECT_EQ(chordAt(chart, Beats(10), choruses), "G7");
    EXPECT_EQ(chordAt(chart, Beats(12), choruses), "C7");
    EXPECT_EQ(chordAt(chart, Beats(-1), choruses), "-");
    EXPECT_EQ(chordAt(chart, Beats(24), choruses), "-");
}

TEST(ChordChart, NothingIsCarriedIntoAChorusFromTheOneBefore) {
    const ChordChart chart = twoBars("| | C7");
    EXPECT_EQ(chordAt(chart, Beats(9), {{1, 2}, {3, 2}}), "-");
}

TEST(ChordChart, OutsideChorusesOverriddenBarsCarryOn) {
    ChordChart chart = twoBars("C7");
    chart.overrides[-1] = parseBars("G7", fourFour).front();
    chart.overrides[4] = parseBars("Ab7", fourFour).front();
    const std::vector<ChorusBars> choruses{{1, 2}};
    EXPECT_EQ(chordAt(chart, Beats(-1), choruses), "G7");
    EXPECT_EQ(chordAt(chart, Beats(8), choruses), "-");
    EXPECT_EQ(chordAt(chart, Beats(21), choruses), "Ab7");
}

} // namespace
} // namespace earwright
