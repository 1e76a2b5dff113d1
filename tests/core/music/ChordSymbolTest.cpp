#include "core/music/ChordSymbol.h"

#include "core/music/NoChord.h"

#include <gtest/gtest.h>
#include <random>
#include <string>
#include <vector>

namespace earwright {
namespace {

using Tones = std::vector<int>;

Tones tonesOf(const std::string& text) {
    const ChordSymbol symbol = parseChordSymbol(text);
    return symbol.chord ? symbol.chord->intervals() : Tones{};
}

std::string printOf(const std::string& text) {
    return toString(parseChordSymbol(text));
}

TEST(ChordSymbol, ReadsRootQualityExtensionAlterationsAndBass) {
    const ChordSymbol symbol = parseChordSymbol("Bb13b9/D");
    ASSERT_TRUE(symbol.chord);
    EXPECT_EQ(symbol.text, "Bb13b9/D");
    EXPECT_EQ(symbol.chord->root, (PitchName{Step::B, -1}));
    EXPECT_EQ(symbol.chord->quality, ChordQuality::Dominant);
    EXPECT_EQ(symbol.chord->extension, 13);
    EXPECT_EQ(symbol.chord->alterations, (std::vector<Alteration>{{9, -1}}));
    EXPECT_EQ(symbol.chord->bass, (PitchName{Step::D, 0}));
}

// Common practice: N.C. says that nobody plays a chord.
TEST(ChordSymbol, ReadsNoChordAsSuch) {
    for (const char* text : {"N.C.", "NC", "N.C", "n.c."}) {
        const ChordSymbol symbol = parseChordSymbol(text);
        EXPECT_TRUE(isNoChord(symbol)) << text;
        EXPECT_TRUE(isRead(symbol));
        EXPECT_FALSE(symbol.chord);
        EXPECT_EQ(toString(symbol), "N.C.");
        EXPECT_EQ(symbol.text, text);
    }
    EXPECT_FALSE(isRead(parseChordSymbol("N.")));
    EXPECT_FALSE(isNoChord(parseChordSymbol("C")));
}

struct Spelling {
    std::string symbol;
    Tones tones;
};

// Common practice, as lead sheets spell chords; the chord dictionary in tests/reference is the outside check.
const std::vector<Spelling> spellings{
    {"C", {0, 4, 7}},
    {"C6", {0, 4, 7, 9}},
    {"C69", {0, 4, 7, 9, 14}},
    {"C6/9", {0, 4, 7, 9, 14}},
    {"Cmaj7", {0, 4, 7, 11}},
    {"CM7", {0, 4, 7, 11}},
    {"CΔ", {0, 4, 7, 11}},
    {"CΔ7", {0, 4, 7, 11}},
    {"Cmaj9", {0, 4, 7, 11, 14}},
    {"Cmaj7#11", {0, 4, 7, 11, 18}},
    {"C7", {0, 4, 7, 10}},
    {"C9", {0, 4, 7, 10, 14}},
    {"C11", {0, 7, 10, 14, 17}},
    {"C13", {0, 4, 7, 10, 14, 21}},
    {"C7b9", {0, 4, 7, 10, 13}},
    {"C7#9", {0, 4, 7, 10, 15}},
    {"C7#11", {0, 4, 7, 10, 18}},
    {"C7b13", {0, 4, 7, 10, 20}},
    {"C7(b9,#11)", {0, 4, 7, 10, 13, 18}},
    {"C7(b9 #11)", {0, 4, 7, 10, 13, 18}},
    {"C7( b9 , #11 )", {0, 4, 7, 10, 13, 18}},
    {"C7(b9)(b13)", {0, 4, 7, 10, 13, 20}},
    {"C7alt", {0, 4, 6, 8, 10, 13, 15}},
    {"C7sus4", {0, 5, 7, 10}},
    {"C7sus", {0, 5, 7, 10}},
    {"C9sus", {0, 5, 7, 10, 14}},
    {"Cm", {0, 3, 7}},
    {"Cmin", {0, 3, 7}},
    {"C-7", {0, 3, 7, 10}},
    {"Cm7", {0, 3, 7, 10}},
    {"Cm6", {0, 3, 7, 9}},
    {"Cm9", {0, 3, 7, 10, 14}},
    {"Cm11", {0, 3, 7, 10, 14, 17}},
    {"Cm(maj7)", {0, 3, 7, 11}},
    {"CmMaj7", {0, 3, 7, 11}},
    {"C-Δ", {0, 3, 7, 11}},
    {"Cm7b5", {0, 3, 6, 10}},
    {"Cm7(♭5)", {0, 3, 6, 10}},
    {"Cø", {0, 3, 6, 10}},
    {"Cø7", {0, 3, 6, 10}},
    {"Cdim", {0, 3, 6}},
    {"C°7", {0, 3, 6, 9}},
    {"Cdim7", {0, 3, 6, 9}},
    {"C+", {0, 4, 8}},
    {"Caug", {0, 4, 8}},
    {"C7#5", {0, 4, 8, 10}},
    {"C+7", {0, 4, 8, 10}},
    {"C7+", {0, 4, 8, 10}},
    {"Cmaj7#5", {0, 4, 8, 11}},
    {"Csus2", {0, 2, 7}},
    {"Csus4", {0, 5, 7}},
    {"Cadd9", {0, 4, 7, 14}},
    {"Cmadd9", {0, 3, 7, 14}},
    {"C5", {0, 7}},
    {"C/E", {0, 4, 7}},
};

TEST(ChordSymbol, SpellsTheChordsOfJazzPractice) {
    for (const Spelling& spelling : spellings)
        EXPECT_EQ(tonesOf(spelling.symbol), spelling.tones) << spelling.symbol;
}

TEST(ChordSymbol, DifferentWaysOfTypingMeanTheSameChord) {
    const std::vector<std::vector<std::string>> sames{{"Cmaj7", "CMaj7", "CM7", "CΔ", "Cma7", "CMA7", "C^7"},
                                                      {"Cm7", "Cmin7", "Cmi7", "C-7", "C−7"},
                                                      {"Cm7b5", "Cø", "CØ7", "C-7b5", "Cm7-5"},
                                                      {"C°7", "Cdim7", "Co7"},
                                                      {"C7#5", "C7+5", "C+7", "Caug7", "C7+"},
                                                      {"C+", "Caug", "C(#5)"},
                                                      {"Cm(maj7)", "CmM7", "CminMaj7", "C-Δ7"},
                                                      {"C7sus4", "C7sus"},
                                                      {"C7b9", "C7♭9", "C7(b9)", "C7-9"},
                                                      {"Calt", "C7alt"},
                                                      {"C7(13)", "C7add13"},
                                                      {"C6(9)", "C6/9"}};
    for (const auto& same : sames)
        for (const std::string& text : same)
            EXPECT_EQ(parseChordSymbol(text).chord, parseChordSymbol(same.front()).chord) << text;
}

TEST(ChordSymbol, PrintsWithTheSignsOfPrint) {
    EXPECT_EQ(printOf("Bb7"), "B♭7");
    EXPECT_EQ(printOf("Fm7b5"), "Fm7♭5");
    EXPECT_EQ(printOf("Fø"), "Fm7♭5");
    EXPECT_EQ(printOf("C7/E"), "C7/E");
    EXPECT_EQ(printOf("F#-7"), "F♯m7");
    EXPECT_EQ(printOf("C7b9#11"), "C7(♭9♯11)");
    EXPECT_EQ(printOf("C69"), "C6/9");
    EXPECT_EQ(printOf("Db+7"), "D♭7♯5");
    EXPECT_EQ(printOf("C7alt"), "C7alt");
}

TEST(ChordSymbol, WhatCannotBeReadIsKeptAsTyped) {
    for (const char* text : {"N.C.", "H7", "", "C7x", "Cm7b", "C7(b9", "C7b9)", "C/", "C/H", "7", "Csus2sus4",
                             "C5b9", "C-5", "C7#13", "bb7", "CC", "C+11", "Cmajor7maj7"}) {
        const ChordSymbol symbol = parseChordSymbol(text);
        EXPECT_EQ(symbol.text, text);
        EXPECT_FALSE(symbol.chord) << text;
        EXPECT_EQ(toString(symbol), text);
    }
}

TEST(ChordSymbol, ASixthWithANinthIsNotABass) {
    EXPECT_FALSE(parseChordSymbol("C6/9").chord->bass);
    EXPECT_EQ(parseChordSymbol("C6/9/E").chord->bass, (PitchName{Step::E, 0}));
    EXPECT_EQ(parseChordSymbol("C6/E").chord->bass, (PitchName{Step::E, 0}));
}

TEST(ChordSymbol, PrintReadsBackToTheSameChordForAnySymbolThatCanBeRead) {
    const std::vector<std::string> stems{"",  "m", "maj", "M",   "Δ",   "-",    "dim",
                                         "°", "ø", "+",   "aug", "dom", "mMaj", "m(maj7)"};
    const std::vector<std::string> numbers{"", "5", "6", "69", "7", "9", "11", "13"};
    const std::vector<std::string> tails{"",        "b5",     "#5",   "b9",    "#9",   "#11",
                                         "b13",     "b6",     "sus4", "sus2",  "add9", "alt",
                                         "(b9#11)", "b9sus4", "b5#9", "add11", "#5/G"};
    int read = 0;
    for (const std::string& stem : stems)
        for (const std::string& number : numbers)
            for (const std::string& tail : tails) {
                const ChordSymbol symbol = parseChordSymbol("Ab" + stem + number + tail);
                if (!symbol.chord) continue;
                ++read;
                const std::string print = toString(symbol);
                EXPECT_EQ(parseChordSymbol(print).chord, symbol.chord)
                    << symbol.text << " printed as " << print;
            }
    EXPECT_GT(read, 500);
}

TEST(ChordSymbol, AnyBytesAtAllAreTakenAndKept) {
    std::mt19937 random(7);
    const std::string alphabet = "ABCDEFGb#mMaj+-791135()/,susdalt\xe2\x99\xad\xff\x00 |%";
    for (int round = 0; round < 20'000; ++round) {
        std::string text;
        for (auto length = random() % 12; length > 0; --length)
            text += alphabet[random() % alphabet.size()];
        const ChordSymbol symbol = parseChordSymbol(text);
        EXPECT_EQ(symbol.text, text);
        EXPECT_TRUE(!symbol.chord || symbol.chord->intervals().size() >= 2);
    }
}

} // namespace
} // namespace earwright
