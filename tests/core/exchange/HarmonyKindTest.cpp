// Kinds and degrees, put together again as MusicXML 4.0 explains kind-value and degree-alter.
#include "core/exchange/HarmonyKind.h"

#include "core/exchange/HarmonyReading.h"
#include "core/exchange/MusicXmlHarmony.h"

#include <gtest/gtest.h>
#include <map>
#include <pugixml.hpp>
#include <set>

namespace earwright {
namespace {

/// Degree and semitones of each kind, from the documentation of kind-value in the MusicXML 4.0 schema.
const std::map<std::string, std::map<int, int>> kinds{
    {"major", {{3, 4}, {5, 7}}},
    {"minor", {{3, 3}, {5, 7}}},
    {"augmented", {{3, 4}, {5, 8}}},
    {"diminished", {{3, 3}, {5, 6}}},
    {"dominant", {{3, 4}, {5, 7}, {7, 10}}},
    {"major-seventh", {{3, 4}, {5, 7}, {7, 11}}},
    {"minor-seventh", {{3, 3}, {5, 7}, {7, 10}}},
    {"diminished-seventh", {{3, 3}, {5, 6}, {7, 9}}},
    {"augmented-seventh", {{3, 4}, {5, 8}, {7, 10}}},
    {"half-diminished", {{3, 3}, {5, 6}, {7, 10}}},
    {"major-minor", {{3, 3}, {5, 7}, {7, 11}}},
    {"major-sixth", {{3, 4}, {5, 7}, {6, 9}}},
    {"minor-sixth", {{3, 3}, {5, 7}, {6, 9}}},
    {"dominant-ninth", {{3, 4}, {5, 7}, {7, 10}, {9, 14}}},
    {"major-ninth", {{3, 4}, {5, 7}, {7, 11}, {9, 14}}},
    {"minor-ninth", {{3, 3}, {5, 7}, {7, 10}, {9, 14}}},
    {"dominant-13th", {{3, 4}, {5, 7}, {7, 10}, {9, 14}, {11, 17}, {13, 21}}},
    {"suspended-second", {{2, 2}, {5, 7}}},
    {"suspended-fourth", {{4, 5}, {5, 7}}},
    {"power", {{5, 7}}},
};

std::set<int> tones(const HarmonyKind& harmony) {
    // Against a dominant chord: major and perfect degrees, a minor seventh.
    static const std::map<int, int> dominant{{2, 2},  {4, 5},  {5, 7},   {6, 9},
                                             {7, 10}, {9, 14}, {11, 17}, {13, 21}};
    std::map<int, int> kind = kinds.at(harmony.kind);
    std::set<int> added{0};
    for (const HarmonyDegree& degree : harmony.degrees) {
        if (degree.type == "alter")
            kind.at(degree.value) += degree.alter;
        else
            added.insert(dominant.at(degree.value) + degree.alter);
    }
    for (const auto& [degree, semitones] : kind)
        added.insert(semitones);
    return added;
}

TEST(HarmonyKind, SaysEveryToneOfTheChord) {
    for (const char* text :
         {"C",     "Cm",       "C7",     "Cmaj7", "Cm7",   "Cm7b5",    "Cdim",  "Cdim7", "Caug",
          "C7#5",  "Cm(maj7)", "C6",     "Cm6",   "C69",   "C9",       "Cmaj9", "Cm9",   "Csus2",
          "Csus4", "C7sus",    "C9sus",  "C5",    "C7b9",  "C7#9",     "C7b5",  "C9b5",  "C7#11",
          "C9#11", "C7b9b13",  "C7b9#9", "Calt",  "Cadd9", "Cmaj7#11", "C9#5",  "Cm7b9"}) {
        const ChordSymbol symbol = parseChordSymbol(text);
        ASSERT_TRUE(symbol.chord) << text;
        const std::vector<int> intervals = symbol.chord->intervals();
        EXPECT_EQ(tones(harmonyKind(*symbol.chord)), std::set<int>(intervals.begin(), intervals.end()))
            << text;
    }
}

TEST(HarmonyKind, NamesTheCommonChordsAsTheSchemaDoes) {
    EXPECT_EQ(harmonyKind(*parseChordSymbol("Fm7b5").chord).kind, "half-diminished");
    EXPECT_EQ(harmonyKind(*parseChordSymbol("C13").chord).kind, "dominant-13th");
    const HarmonyKind flatNine = harmonyKind(*parseChordSymbol("C13b9").chord);
    EXPECT_EQ(flatNine.degrees, (std::vector<HarmonyDegree>{{9, -1, "alter"}}));
}

/// All of kind-value in the MusicXML 4.0 schema.
const std::vector<std::string> everyKind{"major",
                                         "minor",
                                         "augmented",
                                         "diminished",
                                         "dominant",
                                         "major-seventh",
                                         "minor-seventh",
                                         "diminished-seventh",
                                         "augmented-seventh",
                                         "half-diminished",
                                         "major-minor",
                                         "major-sixth",
                                         "minor-sixth",
                                         "dominant-ninth",
                                         "major-ninth",
                                         "minor-ninth",
                                         "dominant-11th",
                                         "major-11th",
                                         "minor-11th",
                                         "dominant-13th",
                                         "major-13th",
                                         "minor-13th",
                                         "suspended-second",
                                         "suspended-fourth",
                                         "Neapolitan",
                                         "Italian",
                                         "French",
                                         "German",
                                         "pedal",
                                         "power",
                                         "Tristan",
                                         "other",
                                         "none"};

/// "kind root bass degrees", as the element says.
std::string said(pugi::xml_node harmony) {
    std::string text = harmony.child_value("kind");
    text += std::string(" ") + harmony.child("root").child_value("root-step") +
            harmony.child("root").child_value("root-alter") + " " +
            harmony.child("bass").child_value("bass-step");
    for (const pugi::xml_node degree : harmony.children("degree"))
        text += std::string(" ") + degree.child_value("degree-type") + degree.child_value("degree-value") +
                ":" + degree.child_value("degree-alter");
    return text;
}

TEST(HarmonyKind, EveryKindOnEveryRootComesBackAsItWas) {
    ASSERT_EQ(everyKind.size(), 33u);
    for (const std::string& kind : everyKind)
        for (const char* step : {"C", "D", "E", "F", "G", "A", "B"})
            for (const char* alter : {"", "<root-alter>-1</root-alter>", "<root-alter>1</root-alter>"}) {
                // No chord has no root of its own; its element needs one.
                if (kind == "none" && (*step != 'C' || *alter != 0)) continue;
                pugi::xml_document document;
                ASSERT_TRUE(
                    document.load_string(("<harmony><root><root-step>" + std::string(step) + "</root-step>" +
                                          alter + "</root><kind>" + kind + "</kind></harmony>")
                                             .c_str()));
                const auto symbol = harmonySymbol(document.first_child());
                ASSERT_TRUE(symbol) << kind;
                pugi::xml_document written;
                addSymbol(written, *symbol, 0, 1);
                EXPECT_EQ(said(written.first_child()), said(document.first_child())) << symbol->text;
            }
}

TEST(HarmonyKind, DegreesBassAndPrintedTextsComeBackAsTheyWere) {
    const auto degree = [](int value, int alter, const std::string& type) {
        return "<degree><degree-value>" + std::to_string(value) + "</degree-value><degree-alter>" +
               std::to_string(alter) + "</degree-alter><degree-type>" + type + "</degree-type></degree>";
    };
    const std::string root = "<root><root-step>G</root-step></root>";
    for (const std::string& inside : std::vector<std::string>{
             "<kind>dominant</kind>" + degree(9, -1, "add"), "<kind>dominant</kind>" + degree(11, 1, "add"),
             "<kind>dominant-ninth</kind><bass><bass-step>D</bass-step></bass>" + degree(5, -1, "alter"),
             "<kind>major</kind>" + degree(9, 0, "add"),
             "<kind>minor-seventh</kind><bass><bass-step>C</bass-step></bass>"}) {
        pugi::xml_document document;
        ASSERT_TRUE(document.load_string(("<harmony>" + root + inside + "</harmony>").c_str()));
        const auto symbol = harmonySymbol(document.first_child());
        ASSERT_TRUE(symbol && symbol->chord) << inside;
        pugi::xml_document written;
        addSymbol(written, *symbol, 0, 1);
        EXPECT_EQ(said(written.first_child()), said(document.first_child())) << symbol->text;
    }
    pugi::xml_document other;
    ASSERT_TRUE(
        other.load_string(("<harmony>" + root + "<kind text=\"7(omit3)\">other</kind></harmony>").c_str()));
    EXPECT_EQ(harmonySymbol(other.first_child())->text, "G7(omit3)");
}

TEST(HarmonyKind, AWordThatBeginsWithALetterOfARootIsNoHarmony) {
    for (const char* text : {"Bass", "Ad lib", "E", "hm?", "C(Swiss)", "D(other", "Fine"})
        EXPECT_FALSE(namedHarmony(parseChordSymbol(text))) << text;
}

} // namespace
} // namespace earwright
