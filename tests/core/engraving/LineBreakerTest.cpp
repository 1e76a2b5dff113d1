// How many bars come to stand on a line of music.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <algorithm>
#include <cstddef>
#include <gtest/gtest.h>
#include <vector>

namespace earwright {
namespace {

Study quarters(int bars) {
    Study study = studyInFour();
    for (int beat = 0; beat < 4 * bars; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 71));
    return study;
}

std::vector<EngravedSystem> linesOf(const Study& study, std::optional<int> barsPerLine, double width) {
    EngravingOptions options;
    options.margin = 0;
    options.pageWidth = width;
    options.barsPerLine = barsPerLine;
    const auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
    return systems ? *systems : std::vector<EngravedSystem>{};
}

std::vector<EngravedSystem> linesOf(int bars, std::optional<int> barsPerLine, double width) {
    return linesOf(quarters(bars), barsPerLine, width);
}

std::vector<std::size_t> sizesOf(const std::vector<EngravedSystem>& lines) {
    std::vector<std::size_t> sizes;
    for (const EngravedSystem& line : lines)
        sizes.push_back(line.bars.size());
    return sizes;
}

using Sizes = std::vector<std::size_t>;

TEST(LineBreaker, PutsTheWantedBarsOnALine) {
    NEEDS_MUSIC_FONT;
    EXPECT_EQ(sizesOf(linesOf(8, 3, 120)), (Sizes{3, 3, 2}));
    EXPECT_EQ(sizesOf(linesOf(3, 1, 120)), (Sizes{1, 1, 1}));
}

TEST(LineBreaker, PutsAsManyBarsOnALineAsFitWhereNoNumberIsWanted) {
    NEEDS_MUSIC_FONT;
    EXPECT_EQ(sizesOf(linesOf(9, std::nullopt, 400)), (Sizes{9}));
    EXPECT_EQ(sizesOf(linesOf(3, std::nullopt, 21)), (Sizes{1, 1, 1}));
}

// Neither the last line nor another stands out by being half empty.
TEST(LineBreaker, SharesTheBarsOutWhereNotAllFitOnALine) {
    NEEDS_MUSIC_FONT;
    const double width = 120;
    const std::size_t fitting = sizesOf(linesOf(100, std::nullopt, width)).front();
    ASSERT_GT(fitting, 3u);
    const int bars = static_cast<int>(fitting) + 2;
    const auto lines = linesOf(bars, std::nullopt, width);
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_LE(lines[0].bars.size() - lines[1].bars.size(), 1u);
}

// Lines of as many bars are as wide (common practice); a last one of fewer bars is spaced as the others are.
TEST(LineBreaker, FillsLinesOfAsManyBarsAsTheOthers) {
    NEEDS_MUSIC_FONT;
    const auto even = linesOf(8, std::nullopt, 80);
    ASSERT_GT(even.size(), 1u);
    ASSERT_EQ(even.front().bars.size(), even.back().bars.size());
    EXPECT_NEAR(even.back().bars.back().right, 80, 0.1);
    const auto uneven = linesOf(7, std::nullopt, 80);
    ASSERT_GT(uneven.front().bars.size(), uneven.back().bars.size());
    EXPECT_LT(uneven.back().bars.back().right, 80);
}

// Neither is a line short that could share, nor is there one more than filled lines would take.
TEST(LineBreaker, SharesTheBarsEvenlyOverAsFewLinesAsFit) {
    NEEDS_MUSIC_FONT;
    const double width = 80;
    int fitting = 1;
    while (sizesOf(linesOf(fitting + 1, fitting + 1, width)).size() == 1)
        ++fitting;
    ASSERT_GE(fitting, 3);
    for (int bars = 1; bars <= 24; ++bars) {
        const Sizes sizes = sizesOf(linesOf(bars, std::nullopt, width));
        const auto [least, most] = std::minmax_element(sizes.begin(), sizes.end());
        EXPECT_LE(*most - *least, 1u) << bars;
        EXPECT_TRUE(std::is_sorted(sizes.rbegin(), sizes.rend())) << bars;
        EXPECT_LE(sizes.size(), static_cast<std::size_t>((bars + fitting - 1) / fitting)) << bars;
    }
}

// Six bars and five have room on three lines however they are shared.
TEST(LineBreaker, BeginsChorusesAndRepeatsWithALineWhereThatCostsNone) {
    NEEDS_MUSIC_FONT;
    double width = 60;
    while (sizesOf(linesOf(5, 5, width)).size() > 1)
        ++width;
    ASSERT_EQ(sizesOf(linesOf(6, 6, width)).size(), 2u);
    EXPECT_EQ(sizesOf(linesOf(11, std::nullopt, width)), (Sizes{4, 4, 3}));
    // A bar lasts two seconds.
    Study study = quarters(11);
    study.spans.push_back({{study.nextId++}, SpanKind::Chorus, "", {Seconds(0), Seconds(12)}});
    EXPECT_EQ(sizesOf(linesOf(study, std::nullopt, width)), (Sizes{3, 3, 5}));
    study.spans.clear();
    study.page.repeats = {{7, 9, 2, 0}};
    EXPECT_EQ(sizesOf(linesOf(study, std::nullopt, width)), (Sizes{3, 3, 5}))
        << "what is behind the repeat has no room on a line of its own";
}

// Two lines of three bars after lines of four: as many as the neighbour, so as wide.
TEST(LineBreaker, FillsALastLineOfAsManyBarsAsTheOneBefore) {
    NEEDS_MUSIC_FONT;
    int found = 0;
    for (int bars = 10; bars < 30; ++bars) {
        const auto lines = linesOf(bars, std::nullopt, 80);
        const Sizes sizes = sizesOf(lines);
        const std::size_t last = sizes.size() - 1;
        if (sizes[last] != sizes[last - 1] || sizes[last] == sizes[0]) continue;
        ++found;
        EXPECT_NEAR(lines[last - 1].bars.back().right, 80, 0.1) << bars;
        EXPECT_NEAR(lines[last].bars.back().right, 80, 0.1) << bars;
    }
    EXPECT_GT(found, 2);
}

// A bar full of notes makes its own line short, not all of them.
TEST(LineBreaker, FillsLinesBesideOneThatADenseBarMakesShort) {
    NEEDS_MUSIC_FONT;
    const double width = 100;
    const auto plain = sizesOf(linesOf(32, std::nullopt, width));
    ASSERT_GT(plain.front(), 3u);
    Study study = quarters(32);
    std::erase_if(study.notes,
                  [](const Note& note) { return note.onset >= Beats(64) && note.onset < Beats(68); });
    for (int part = 0; part < 32; ++part)
        study.notes.push_back(noteAt(study, Beats(64) + Beats(part, 8), Beats(1, 8), 71));
    std::sort(study.notes.begin(), study.notes.end(),
              [](const Note& a, const Note& b) { return a.onset < b.onset; });
    const auto sizes = sizesOf(linesOf(study, std::nullopt, width));
    EXPECT_EQ(sizes.front(), plain.front());
    EXPECT_LE(sizes.size(), plain.size() + 1);
    EXPECT_LE(sizes.size(), sizesOf(linesOf(study, 4, width)).size()) << "fewer would fit";
}

} // namespace
} // namespace earwright
