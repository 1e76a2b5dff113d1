// Chord spellings against the dictionary @tonaljs/chord-type 5.1.1 (npm), which `fetch` prints to a table.
#include "core/music/ChordSymbol.h"

#include <algorithm>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <set>
#include <sstream>
#include <string>

namespace earwright {
namespace {

using PitchClasses = std::set<int>;

/// Semitones of an interval as the dictionary writes it, within an octave: "3m" is 3, "11A" is 6, "7d" is 9.
int pitchClassOfInterval(const std::string& interval) {
    static const std::map<int, int> major{{1, 0}, {2, 2}, {3, 4}, {4, 5}, {5, 7}, {6, 9}, {7, 11}};
    const int degree = (std::stoi(interval) - 1) % 7 + 1;
    const bool perfect = degree == 1 || degree == 4 || degree == 5;
    switch (interval.back()) {
    case 'm':
        return major.at(degree) - 1;
    case 'd':
        return major.at(degree) - (perfect ? 1 : 2);
    case 'A':
        return major.at(degree) + 1;
    default:
        return major.at(degree);
    }
}

/// Every name in the dictionary with its chord's pitch classes above the root.
std::map<std::string, PitchClasses> readDictionary() {
    std::map<std::string, PitchClasses> dictionary;
    std::ifstream file(EARWRIGHT_CHORD_DICTIONARY);
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        const std::size_t tab = line.find('\t');
        std::istringstream intervals(line.substr(tab + 1));
        PitchClasses& classes = dictionary[line.substr(0, tab)];
        for (std::string interval; intervals >> interval;)
            classes.insert(pitchClassOfInterval(interval));
    }
    return dictionary;
}

/// Names that the dictionary spells otherwise than common practice has it, and why we do not follow.
const std::map<std::string, std::string> departures{
    {"7alt", "the dictionary has only ♯5 and ♯9; alt stands for all four altered tones"},
    {"7b13", "the dictionary leaves the fifth out, which the symbol does not say"},
    {"9b13", "the dictionary leaves the fifth out, which the symbol does not say"},
    {"^7b6", "the dictionary leaves the fifth out, which the symbol does not say"},
    {"M7b6", "the dictionary leaves the fifth out, which the symbol does not say"},
    {"mb6b9", "the dictionary leaves the fifth out, which the symbol does not say"},
    {"m13", "the dictionary leaves the eleventh out, which does not rub against a minor third"},
    {"-13", "the dictionary leaves the eleventh out, which does not rub against a minor third"},
    {"M7add13", "the dictionary adds a ninth that the symbol does not name"},
    {"7b5b9", "the dictionary keeps a perfect fifth beside ♭5"},
    {"7b9b5", "the dictionary keeps a perfect fifth beside ♭5"},
    {"7b5#9", "the dictionary keeps a perfect fifth beside ♭5"},
    {"7#9b5", "the dictionary keeps a perfect fifth beside ♭5"},
    {"7b5b13", "the dictionary keeps a perfect fifth beside ♭5"},
    {"9b5b13", "the dictionary keeps a perfect fifth beside ♭5"},
    {"7b5b9b13", "the dictionary keeps a perfect fifth beside ♭5"},
    {"M6b5", "the dictionary keeps a perfect fifth beside ♭5"},
    {"6b5", "the dictionary keeps a perfect fifth beside ♭5"},
};

PitchClasses classesOf(const Chord& chord) {
    PitchClasses classes;
    for (const int interval : chord.intervals())
        classes.insert(interval % 12);
    return classes;
}

struct ChordDictionary : testing::Test {
    std::map<std::string, PitchClasses> dictionary = readDictionary();
    void SetUp() override {
        if (dictionary.empty())
            GTEST_SKIP() << "no chord dictionary at " << EARWRIGHT_CHORD_DICTIONARY
                         << "; tests/reference/chord-dictionary/fetch BUILD_DIR gets it";
    }
};

TEST_F(ChordDictionary, EveryNameBothCanReadIsSpelledAlike) {
    int compared = 0;
    for (const auto& [name, classes] : dictionary) {
        // "Gb9sus" is a chord on G flat.
        if (name.starts_with('b') || name.starts_with('#')) continue;
        const ChordSymbol symbol = parseChordSymbol("G" + name);
        if (!symbol.chord) continue;
        ++compared;
        if (departures.contains(name)) continue;
        EXPECT_EQ(classesOf(*symbol.chord), classes) << "G" << name;
    }
    EXPECT_GE(compared, 130);
}

TEST_F(ChordDictionary, TheDeparturesAreStillDepartures) {
    for (const auto& [name, reason] : departures) {
        const ChordSymbol symbol = parseChordSymbol("G" + name);
        ASSERT_TRUE(symbol.chord) << name;
        ASSERT_TRUE(dictionary.contains(name)) << name;
        EXPECT_NE(classesOf(*symbol.chord), dictionary.at(name)) << name << ": " << reason;
    }
}

TEST_F(ChordDictionary, NoneOfTheNamesOfJazzPracticeIsLeftUnread) {
    for (const char* name :
         {"",       "6",       "69",   "6/9",  "maj7",  "M7",     "Δ",      "maj9", "maj13", "maj7#11",
          "maj7#5", "7",       "9",    "11",   "13",    "7b9",    "7#9",    "7#11", "7b13",  "7#5",
          "7b5",    "+7",      "9#11", "13b9", "13#11", "7b9#11", "7b9b13", "7alt", "7sus4", "9sus",
          "13sus4", "7b9sus4", "m",    "min",  "m7",    "-7",     "m6",     "m69",  "m9",    "m11",
          "m13",    "mMaj7",   "mM9",  "m7b5", "ø",     "m9b5",   "dim",    "°",    "dim7",  "°7",
          "+",      "aug",     "sus2", "sus4", "add9",  "madd9",  "5"}) {
        EXPECT_TRUE(parseChordSymbol(std::string("G") + name).chord) << name;
        EXPECT_TRUE(dictionary.contains(name)) << name;
    }
}

} // namespace
} // namespace earwright
