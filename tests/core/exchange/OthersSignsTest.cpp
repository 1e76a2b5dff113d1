// Signs of other programs' MusicXML: what they say is read, or said to be left out.
#include "core/exchange/MusicXmlReading.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <optional>
#include <string>
#include <vector>

namespace earwright {
namespace {

/// One bar of 4/4 with a quarter for its divisions.
Imported read(const std::string& inside) {
    const std::string text =
        "<score-partwise version=\"3.1\"><part-list><score-part id=\"P1\"><part-name>Line</part-name>"
        "</score-part></part-list><part id=\"P1\"><measure number=\"1\"><attributes><divisions>1</divisions>"
        "<time><beats>4</beats><beat-type>4</beat-type></time></attributes>" +
        inside + "</measure></part></score-partwise>";
    const auto imported = readMusicXml(text, "signs.musicxml");
    EXPECT_TRUE(imported.ok()) << describe(imported.error());
    return imported ? *imported : Imported{};
}

std::string note(const std::string& step, const std::string& more, const std::string& before = "") {
    return "<note>" + before + "<pitch><step>" + step +
           "</step><octave>4</octave></pitch><duration>1</duration>" + more + "</note>";
}

std::string notations(const std::string& inside) {
    return "<notations>" + inside + "</notations>";
}

bool says(const Imported& imported, const std::string& sentence) {
    const auto& all = imported.leftOut;
    return std::find(all.begin(), all.end(), sentence) != all.end();
}

// Programs write what stands over a chord at its first note.
TEST(OthersSigns, AtTheFirstNoteOfAChordHoldForAllOfIt) {
    const Imported imported =
        read(note("C", notations("<articulations><accent/></articulations><ornaments><turn/></ornaments>")) +
             note("E", "", "<chord/>") +
             note("G", notations("<articulations><staccato/></articulations>"), "<chord/>") + note("A", ""));
    ASSERT_EQ(imported.study.notes.size(), 4u);
    for (std::size_t i = 0; i < 4; ++i) {
        const Phrasing& phrasing = imported.study.notes[i].phrasing;
        EXPECT_EQ(phrasing.accented, i < 3) << i;
        EXPECT_EQ(phrasing.turn.has_value(), i < 3) << i;
        EXPECT_EQ(phrasing.staccato, i == 2) << i;
    }
}

// In C major D lies a whole tone over C and F a half one over E: one trill over both, two widths.
TEST(OthersSigns, OfATrillOverAChordTakeEachNoteAsFarAsTheKeyOrTheFileSays) {
    using Trills = std::vector<std::optional<int>>;
    const auto trills = [](const std::string& first, const std::string& second = "") {
        const auto ornaments = [](const std::string& inside) {
            return inside.empty() ? "" : notations("<ornaments>" + inside + "</ornaments>");
        };
        const Imported page = read(note("C", ornaments(first)) + note("E", ornaments(second), "<chord/>"));
        Trills found;
        for (const Note& written : page.study.notes)
            found.push_back(written.phrasing.trill);
        return found;
    };
    EXPECT_EQ(trills("<trill-mark/>"), (Trills{2, 1}));
    EXPECT_EQ(trills("<trill-mark trill-step=\"half\"/>"), (Trills{1, 1}));
    const std::string flat = "<accidental-mark>flat</accidental-mark>";
    const std::string sharp = "<accidental-mark>sharp</accidental-mark>";
    EXPECT_EQ(trills("<trill-mark/>" + flat), (Trills{1, 1})) << "the sign is the first note's";
    EXPECT_EQ(trills("<trill-mark/>", "<trill-mark/>" + sharp), (Trills{2, 2}));
    EXPECT_EQ(trills("", "<trill-mark/>"), (Trills{{}, 1}));
}

TEST(OthersSigns, OfLoudnessMayStandAtANote) {
    const Imported imported = read(note("C", "") + note("D", notations("<dynamics><ff/></dynamics>")));
    EXPECT_EQ(imported.study.page.dynamics, (std::vector<DynamicMark>{{Beats(1), Dynamic::ff}}));
}

TEST(OthersSigns, AreSaidToBeLeftOut) {
    const auto direction = [](const std::string& type) {
        return "<direction><direction-type>" + type + "</direction-type></direction>";
    };
    const Imported imported = read(
        direction("<bracket type=\"start\" line-end=\"none\"/>") +
        direction("<other-direction>x</other-direction>") + direction("<scordatura/>") +
        direction("<metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome>") +
        note("C", "<notehead>diamond</notehead>" + notations("<technical><thumb-position/></technical>")));
    for (const char* sentence : {"Brackets and dashed lines were left out.",
                                 "Signs that only the program that wrote them knows were left out.",
                                 "Harmonics, mutes and other signs for one instrument were left out.",
                                 "A tempo that no page here can show was left out.",
                                 "Noteheads of other shapes were written as usual ones."})
        EXPECT_TRUE(says(imported, sentence)) << sentence;
    const Imported plain =
        read(direction("<metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute>"
                       "</metronome>") +
             note("C", "<notehead parentheses=\"yes\">normal</notehead>"));
    EXPECT_TRUE(plain.leftOut.empty());
}

TEST(OthersSigns, OfTonesThatAChordLacksAreSaidToBeLeftOut) {
    const auto harmony = [](const std::string& type) {
        return "<harmony><root><root-step>C</root-step></root><kind>dominant</kind><degree><degree-value>9</"
               "degree-value>"
               "<degree-alter>-1</degree-alter><degree-type>" +
               type + "</degree-type></degree></harmony>";
    };
    EXPECT_TRUE(read(harmony("add") + note("C", "")).leftOut.empty());
    EXPECT_TRUE(says(read(harmony("subtract") + note("C", "")),
                     "That a chord lacks one of its tones was left out of its symbol."));
}

} // namespace
} // namespace earwright
