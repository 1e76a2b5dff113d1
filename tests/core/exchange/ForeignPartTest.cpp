#include "core/exchange/ForeignPart.h"

#include "core/exchange/MusicXmlReading.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

const std::vector<ForeignPart> band{{"Drums", 200, true},
                                    {"Piano", 0, false},
                                    {"Alto Sax", 90, false},
                                    {"Alto Flute", 40, false},
                                    {"Bass", 120, false}};

std::size_t chosen(const std::string& wish) {
    const auto part = chosenPart(band, wish, "band.mid");
    EXPECT_TRUE(part.ok()) << describe(part.error());
    return part ? *part : band.size();
}

TEST(ForeignPart, IsTheFirstThatIsPlayedOnPitchesUnlessAskedFor) {
    EXPECT_EQ(chosen(""), 2u);
    EXPECT_EQ(chosen("1"), 0u);
    EXPECT_EQ(chosen("5"), 4u);
    EXPECT_EQ(chosen("bass"), 4u);
    EXPECT_EQ(chosen("alto f"), 3u);
    EXPECT_EQ(*chosenPart({{"Kit", 8, true}}, "", "kit.mid"), 0u);
}

TEST(ForeignPart, SaysWhichPartsThereAreWhereTheWishFitsNone) {
    for (const char* wish : {"0", "6", "Oboe", "Alto"}) {
        const auto part = chosenPart(band, wish, "band.mid");
        ASSERT_FALSE(part.ok()) << wish;
        EXPECT_EQ(part.error().kind, ErrorKind::OutOfRange);
        EXPECT_NE(part.error().message.find("3 Alto Sax"), std::string::npos);
    }
    const auto silent = chosenPart(band, "Piano", "band.mid");
    ASSERT_FALSE(silent.ok());
    EXPECT_EQ(silent.error().kind, ErrorKind::Malformed);
    EXPECT_EQ(chosenPart({}, "", "empty.mid").error().kind, ErrorKind::Malformed);
}

TEST(ForeignPart, HasANameOfOneLine) {
    EXPECT_EQ(partName("  Tenor\n sax\t1 ", "part 1"), "Tenor sax 1");
    EXPECT_EQ(partName(" \n", "part 1"), "part 1");
    std::string longest(59, 'a');
    longest += "\xC3\xA9";
    const std::string cut = partName(longest, "part 1");
    EXPECT_EQ(cut, std::string(59, 'a')) << "not half of the letter";
}

TEST(ForeignPart, IsTakenOutOfAScoreOrderedByTime) {
    const auto note = [](const char* step, int octave) {
        return std::string("<note><pitch><step>") + step + "</step><octave>" + std::to_string(octave) +
               "</octave></pitch><duration>4</duration></note>";
    };
    const std::string text =
        "<score-timewise><part-list><score-part id=\"A\"><part-name>Horn</part-name></score-part><score-part "
        "id=\"B\"><part-name>Bass</part-name></score-part></part-list><measure number=\"1\"><part id=\"A\">" +
        note("C", 5) + "</part><part id=\"B\">" + note("C", 3) +
        "</part></measure><measure number=\"2\"><part id=\"A\">" + note("D", 5) + "</part><part id=\"B\">" +
        note("G", 2) + "</part></measure></score-timewise>";
    const auto horn = readMusicXml(text, "line.musicxml");
    ASSERT_TRUE(horn.ok()) << describe(horn.error());
    ASSERT_EQ(horn->study.notes.size(), 2u);
    EXPECT_EQ(horn->study.notes[1].pitch.midi, 74);
    EXPECT_EQ(horn->study.notes[1].onset, Beats(4));
    const auto bass = readMusicXml(text, "line.musicxml", "bass");
    ASSERT_TRUE(bass.ok());
    EXPECT_EQ(bass->study.notes[1].pitch.midi, 43);
    ASSERT_EQ(bass->leftOut.size(), 1u);
    EXPECT_EQ(bass->leftOut.front(), "The part Bass was taken; another part was left out: Horn.");
}

} // namespace
} // namespace earwright
