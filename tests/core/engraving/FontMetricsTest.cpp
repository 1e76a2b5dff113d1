#include "core/engraving/FontMetrics.h"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

namespace earwright {
namespace {

#ifdef EARWRIGHT_MUSIC_FONT
// Values of Bravura 1.392 as its own metadata lists them, read there by eye: y grows upward in that file.
TEST(FontMetrics, AreThoseOfTheFontsOwnMetadata) {
    const auto metrics = FontMetrics::read(std::filesystem::path(EARWRIGHT_MUSIC_FONT) / "metadata.json");
    ASSERT_TRUE(metrics) << metrics.error().message;
    EXPECT_EQ(metrics->fontName(), "Bravura");
    EXPECT_EQ(metrics->box(Smufl::NoteheadBlack), (PageBox{0, -0.5, 1.18, 0.5}));
    EXPECT_EQ(metrics->stemUp(Smufl::NoteheadBlack), (PagePoint{1.18, -0.168}));
    EXPECT_EQ(metrics->stemDown(Smufl::NoteheadBlack), (PagePoint{0, 0.168}));
    EXPECT_EQ(metrics->usual("stemThickness"), 0.12);
    EXPECT_GT(metrics->width(digitOf(Smufl::TimeSig0, 4)), 1);
}
#endif

// Code points of the SMuFL 1.4 tables "Noteheads", "Standard accidentals (12-EDO)", "Rests", "Tuplets".
TEST(Smufl, HasTheCodePointsOfTheStandard) {
    EXPECT_EQ(static_cast<char32_t>(Smufl::NoteheadBlack), U'\uE0A4');
    EXPECT_EQ(static_cast<char32_t>(Smufl::AccidentalFlat), U'\uE260');
    EXPECT_EQ(static_cast<char32_t>(Smufl::RestQuarter), U'\uE4E5');
    EXPECT_EQ(static_cast<char32_t>(digitOf(Smufl::Tuplet0, 3)), U'\uE883');
    EXPECT_EQ(smuflName(digitOf(Smufl::TimeSig0, 7)), "timeSig7");
    for (const Smufl glyph : smuflGlyphs())
        EXPECT_FALSE(smuflName(glyph).empty());
}

TEST(FontMetrics, AreRefusedWhereTheFileIsNotOneOfAFont) {
    const auto file = std::filesystem::temp_directory_path() / "earwright-no-font.json";
    for (const char* text :
         {"", "{}", "[1,2]", "{\"fontName\": 3}", R"({"fontName":"x","glyphBBoxes":{}})"}) {
        std::ofstream(file) << text;
        const auto metrics = FontMetrics::read(file);
        ASSERT_FALSE(metrics) << text;
        EXPECT_EQ(metrics.error().kind, ErrorKind::Malformed) << text;
    }
    std::filesystem::remove(file);
    EXPECT_EQ(FontMetrics::read(file).error().kind, ErrorKind::NotFound);
}

} // namespace
} // namespace earwright
