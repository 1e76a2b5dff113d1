#include "core/exchange/XmlText.h"

#include "core/exchange/MusicXmlReading.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace std::string_literals;

/// Letters of ASCII and é in 16 bits each, the low byte first or last.
std::string in16Bits(const std::string& text, bool lowFirst) {
    std::string bytes;
    for (const char c : text)
        bytes += lowFirst ? std::string{c, '\0'} : std::string{'\0', c};
    return bytes;
}

std::string scoreIn(const std::string& encoding, const std::string& title) {
    return "<?xml version=\"1.0\" encoding='" + encoding + "'?><score-partwise><movement-title>" + title +
           "</movement-title><part-list/><part id=\"P1\"><measure><note><pitch><step>C</step>"
           "<octave>4</octave></pitch><duration>1</duration></note></measure></part></score-partwise>";
}

TEST(XmlText, ReadsEveryUsualEncoding) {
    const auto titleIn = [](const std::string& bytes) {
        const auto imported = readMusicXml(bytes, "line.musicxml");
        return imported ? imported->study.title : describe(imported.error());
    };
    EXPECT_EQ(titleIn(scoreIn("UTF-8", "Soir\xC3\xA9")), "Soir\xC3\xA9");
    EXPECT_EQ(titleIn("\xEF\xBB\xBF" + scoreIn("utf-8", "Soir\xC3\xA9")), "Soir\xC3\xA9");
    // é is E9 in both, and in 16 bits.
    EXPECT_EQ(titleIn(scoreIn("ISO-8859-1", "Soir\xE9")), "Soir\xC3\xA9");
    EXPECT_EQ(titleIn(scoreIn("windows-1252", "Soir\xE9")), "Soir\xC3\xA9");
    EXPECT_EQ(titleIn("\xFF\xFE" + in16Bits(scoreIn("UTF-16", "Soir\xE9"), true)), "Soir\xC3\xA9");
    EXPECT_EQ(titleIn("\xFE\xFF" + in16Bits(scoreIn("UTF-16", "Soir\xE9"), false)), "Soir\xC3\xA9");
    EXPECT_EQ(titleIn(in16Bits(scoreIn("UTF-16", "Soir\xE9"), true)), "Soir\xC3\xA9") << "without a mark";
    EXPECT_EQ(titleIn(in16Bits(scoreIn("UTF-16", "Soir\xE9"), false)), "Soir\xC3\xA9");
}

TEST(XmlText, RefusesWhatIsNotOfItsEncoding) {
    EXPECT_FALSE(utf8Xml("<?xml version=\"1.0\" encoding=\"EBCDIC-CP-US\"?><a/>"));
    EXPECT_FALSE(utf8Xml("\xFF\xFE\x3C"s)) << "half a unit";
    EXPECT_FALSE(utf8Xml("\xFF\xFE\x00\xD8\x3C\x00"s)) << "a surrogate by itself";
}

TEST(XmlText, ADeclarationInDisguiseIsStillSeen) {
    const std::string bomb = "<!DOCTYPE a [<!ENTITY b \"cc\">]><score-partwise>&b;</score-partwise>";
    const auto refused = readMusicXml("\xFF\xFE" + in16Bits(bomb, true), "line.musicxml");
    ASSERT_FALSE(refused.ok());
    EXPECT_NE(refused.error().message.find("entities"), std::string::npos);
}

} // namespace
} // namespace earwright
