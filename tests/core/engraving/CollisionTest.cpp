// No two signs of a page share paper, whatever is written: chance writes here.
#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"
#include "core/engraving/Extent.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {
namespace {

struct Ink {
    std::string what;
    PageBox box;
    /// Of a key that changes, which a tie crosses.
    bool isSignature = false;
};

bool isFlag(const Ink& ink) {
    return ink.what.starts_with("flag");
}

/// The end of a flag curls away from the head of its own stem, so that the boxes overlap and the ink does
/// not.
bool isOwnFlag(const Ink& one, const Ink& other) {
    const Ink& flag = isFlag(one) ? one : other;
    const Ink& head = isFlag(one) ? other : one;
    return isFlag(flag) && head.what.starts_with("notehead") && flag.box.left > head.box.left - 0.5 &&
           flag.box.left < head.box.right + 0.2;
}

/// Parts of a wavy line are made to overlap.
bool isWave(const Ink& one, const Ink& other) {
    return (one.what == "wiggleTrill" || one.what == "wiggleVibrato") && other.what == one.what &&
           one.box.top == other.box.top;
}

/// Glyphs and texts with their boxes, taken in by half a stem's width and a little: what only touches, as two
/// heads on both sides of one stem do, is no collision.
std::vector<Ink> inkOf(const EngravedSystem& system, const FontMetrics& font) {
    constexpr double touch = 0.07;
    const auto smaller = [](const PageBox& box) {
        return PageBox{box.left + touch, box.top + touch, box.right - touch, box.bottom - touch};
    };
    std::vector<Ink> ink;
    for (const PlacedGlyph& glyph : system.shapes.glyphs) {
        const std::string name(smuflName(glyph.glyph));
        ink.push_back({name, smaller(boxOf(glyph, font)), !glyph.note && name.starts_with("accidental")});
    }
    for (const PlacedText& text : system.shapes.texts)
        ink.push_back({text.text, smaller(boxOf(text)), false});
    return ink;
}

/// Where the upper or lower edge of a slanted beam crosses a box.
bool meets(const PlacedBeam& beam, const PageBox& box) {
    const auto& c = beam.corners;
    const double left = std::max(box.left, c[0].x);
    const double right = std::min(box.right, c[1].x);
    if (left >= right) return false;
    const double rise = (c[1].y - c[0].y) / (c[1].x - c[0].x);
    const double atLeft = c[0].y + rise * (left - c[0].x);
    const double atRight = c[0].y + rise * (right - c[0].x);
    const double high = c[3].y - c[0].y;
    const double top = std::min(atLeft, atRight) + std::min(0.0, high);
    const double bottom = std::max(atLeft, atRight) + std::max(0.0, high);
    return top < box.bottom && box.top < bottom;
}

/// Hairpins are the only slanted lines that belong to no note; brackets of endings and let ring are level
/// lines off the staves.
bool isHairpin(const PlacedLine& line) {
    return !line.note && line.from.y != line.to.y && line.from.x != line.to.x;
}

/// Whether a slanted line runs through a box.
bool meets(const PlacedLine& line, const PageBox& box) {
    const double left = std::max(box.left, line.from.x);
    const double right = std::min(box.right, line.to.x);
    if (left >= right) return false;
    const double slope = (line.to.y - line.from.y) / (line.to.x - line.from.x);
    const double a = line.from.y + slope * (left - line.from.x);
    const double b = line.from.y + slope * (right - line.from.x);
    return std::min(a, b) < box.bottom && box.top < std::max(a, b);
}

/// Whether a tie, slur, bend or slide runs through a box.
template <typename Shape>
bool runsThrough(const Shape& shape, const PageBox& box) {
    const std::vector<PageBox> parts = boxesAlong(shape);
    return std::any_of(parts.begin(), parts.end(), [&](const PageBox& part) { return part.overlaps(box); });
}

bool isSlide(const PlacedLine& line) {
    return line.note && line.from.x != line.to.x && line.from.y != line.to.y;
}

std::string place(const Ink& ink) {
    return ink.what + " at " + std::to_string(ink.box.left) + ", " + std::to_string(ink.box.top);
}

int collisionsIn(const EngravedSystem& system, const FontMetrics& font, const std::string& where) {
    const std::vector<Ink> ink = inkOf(system, font);
    int collisions = 0;
    for (std::size_t i = 0; i < ink.size(); ++i) {
        for (std::size_t j = i + 1; j < ink.size(); ++j)
            if (ink[i].box.overlaps(ink[j].box) && !isOwnFlag(ink[i], ink[j]) && !isWave(ink[i], ink[j])) {
                ++collisions;
                ADD_FAILURE() << where << ": " << place(ink[i]) << " meets " << place(ink[j]);
            }
        for (const PlacedBeam& beam : system.shapes.beams)
            if (meets(beam, ink[i].box)) {
                ++collisions;
                ADD_FAILURE() << where << ": " << place(ink[i]) << " meets a beam";
            }
        for (const PlacedLine& line : system.shapes.lines) {
            if (isHairpin(line) && meets(line, ink[i].box)) {
                ++collisions;
                ADD_FAILURE() << where << ": " << place(ink[i]) << " meets a hairpin";
            }
            // The stroke through a grace note crosses its flag.
            if (isSlide(line) && !isFlag(ink[i]) && runsThrough(line, ink[i].box)) {
                ++collisions;
                ADD_FAILURE() << where << ": " << place(ink[i]) << " meets a slide";
            }
        }
        for (const PlacedCurve& curve : system.shapes.curves)
            if (!ink[i].isSignature && runsThrough(curve, ink[i].box)) {
                ++collisions;
                ADD_FAILURE() << where << ": " << place(ink[i]) << " meets a curve";
            }
    }
    return collisions;
}

TEST(EngravedLines, HaveNoCollisions) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EngravingOptions options;
    options.degrees = true;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        const Study study = chanceStudy(seed, 12);
        options.barsPerLine = 1 + static_cast<int>(seed % 4);
        options.strings = seed % 2 == 0 ? 6 : 0;
        options.slashes = seed % 3 == 0;
        options.staff = options.strings == 0 || seed % 4 == 0;
        if (seed % 5 == 0) options.clef = Clef::TrebleOctaveLower;
        options.places = anyPlaces(study);
        const auto systems = engraveSystems(study, wholeStudy(study), options, font);
        ASSERT_TRUE(systems);
        for (const EngravedSystem& system : *systems)
            EXPECT_EQ(collisionsIn(system, font, "seed " + std::to_string(seed)), 0);
    }
}

TEST(EngravedLines, OfTheBluesHaveNoCollisions) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EngravingOptions options;
    options.degrees = true;
    for (const Study& study : {bluesChorus(), phrasedChorus(), markedChorus()}) {
        const auto systems = engraveSystems(study, wholeStudy(study), options, font);
        ASSERT_TRUE(systems);
        for (const EngravedSystem& system : *systems)
            EXPECT_EQ(collisionsIn(system, font, study.title), 0);
    }
}

// The check itself must be able to fail.
TEST(EngravedLines, WithTwoSignsInOnePlaceAreFound) {
    NEEDS_MUSIC_FONT;
    const FontMetrics font = musicFont();
    EngravedSystem system;
    system.shapes.glyphs = {{Smufl::AccidentalFlat, {0, 0}, 1, {}}, {Smufl::NoteheadBlack, {0.5, 0}, 1, {}}};
    const auto ink = inkOf(system, font);
    EXPECT_TRUE(ink[0].box.overlaps(ink[1].box));
    const PlacedBeam beam{{{{-1, 0}, {3, -0.4}, {3, 0.1}, {-1, 0.5}}}};
    EXPECT_TRUE(meets(beam, ink[1].box));
    EXPECT_FALSE(meets(beam, ink[1].box.moved({0, 3})));
    const PlacedLine hairpin{{-1, 0}, {3, -0.4}, 0.16, {}};
    EXPECT_TRUE(isHairpin(hairpin));
    EXPECT_TRUE(meets(hairpin, ink[1].box));
    EXPECT_FALSE(meets(hairpin, ink[1].box.moved({0, 3})));
    const PlacedCurve tie{{{{-1, 0.2}, {0.5, 0}, {1.5, 0}, {3, 0.2}}}};
    EXPECT_TRUE(runsThrough(tie, ink[1].box));
    EXPECT_FALSE(runsThrough(tie, ink[1].box.moved({0, 3})));
}

} // namespace
} // namespace earwright
