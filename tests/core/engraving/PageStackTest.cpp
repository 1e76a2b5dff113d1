// Lines of music on pages.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/Extent.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <set>
#include <vector>

namespace earwright {
namespace {

/// Forty bars of quarters.
Study longStudy() {
    Study study = studyInFour();
    for (int beat = 0; beat < 160; ++beat)
        study.notes.push_back(noteAt(study, Beats(beat), Beats(1), 71));
    return study;
}

/// Heights of the lines of music: of the topmost staff lines.
std::vector<double> linesOf(const EngravedPage& page, double margin) {
    std::set<double> staffLines;
    for (const PlacedLine& line : page.shapes.lines)
        if (line.from.x == margin && line.from.y == line.to.y) staffLines.insert(line.from.y);
    std::vector<double> tops;
    for (const double y : staffLines)
        if (tops.empty() || y - tops.back() > 4.5) tops.push_back(y);
    return tops;
}

double lowest(const EngravedPage& page, double margin) {
    double bottom = 0;
    for (const PlacedLine& line : page.shapes.lines)
        if (line.from.x == margin) bottom = std::max(bottom, line.to.y);
    return bottom;
}

// A full page reaches from margin to margin, its lines as far apart from each other (common practice); the
// last one ends where its music does.
TEST(PageStack, SpreadsTheLinesOfAFullPage) {
    NEEDS_MUSIC_FONT;
    const Study study = longStudy();
    EngravingOptions options;
    options.pageHeight = 80;
    const auto pages = engravePages(study, options, musicFont());
    ASSERT_TRUE(pages);
    ASSERT_GE(pages->size(), 2u);
    const std::vector<double> tops = linesOf(pages->front(), options.margin);
    ASSERT_GE(tops.size(), 3u);
    const double step = tops.back() - tops[tops.size() - 2];
    EXPECT_NEAR(tops[tops.size() - 2] - tops[tops.size() - 3], step, 0.5);
    EXPECT_NEAR(lowest(pages->front(), options.margin), 80 - options.margin, 2.5);
    const std::vector<double> rest = linesOf(pages->back(), options.margin);
    ASSERT_GE(rest.size(), 2u);
    EXPECT_LE(rest[1] - rest[0], step);
}

TEST(PageStack, TearsNoPageApart) {
    NEEDS_MUSIC_FONT;
    Study study = longStudy();
    EngravingOptions options;
    const auto natural = engravePages(study, options, musicFont());
    const std::vector<double> usual = linesOf(natural->front(), options.margin);
    // Two lines have room on a page, and most of a third.
    options.pageHeight = 2 * options.margin + 3 * (usual[1] - usual[0]) - options.systemGap - 0.5;
    const auto pages = engravePages(study, options, musicFont());
    for (const EngravedPage& page : *pages) {
        const std::vector<double> tops = linesOf(page, options.margin);
        for (std::size_t i = 1; i < tops.size(); ++i)
            EXPECT_LE(tops[i] - tops[i - 1], usual[1] - usual[0] + 8.01);
    }
}

// Where lines move, the places of their notes move with them.
TEST(PageStack, KeepsTheBoxesOfNotesOnTheirHeads) {
    NEEDS_MUSIC_FONT;
    const Study study = longStudy();
    EngravingOptions options;
    options.pageHeight = 80;
    const auto pages = engravePages(study, options, musicFont());
    ASSERT_TRUE(pages);
    for (const EngravedPage& page : *pages)
        for (const NoteBox& box : page.notes)
            EXPECT_TRUE(std::any_of(
                page.shapes.glyphs.begin(), page.shapes.glyphs.end(), [&](const PlacedGlyph& glyph) {
                    return glyph.note == box.note &&
                           std::abs(glyph.at.y - (box.box.top + box.box.bottom) / 2) < 0.1;
                }));
}

} // namespace
} // namespace earwright
