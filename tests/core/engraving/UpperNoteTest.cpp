// The upper note of a double stop has its marks as any other has. Code points are those of SMuFL 1.4.
#include "MarkedNote.h"

#include <algorithm>

namespace earwright {
namespace {

/// A3 and E4 together for two beats, then B3 and F♯4, the upper of the first marked; on the fifth and fourth
/// line of the tablature, counted from its top.
class UpperNote : public MarkedNote {
protected:
    EngravedSystem together(const Phrasing& phrasing, int strings = 0) {
        Study study = studyInFour();
        study.notes = {noteAt(study, Beats(0), Beats(2), 57), noteAt(study, Beats(0), Beats(2), 64),
                       noteAt(study, Beats(2), Beats(2), 59), noteAt(study, Beats(2), Beats(2), 66)};
        study.notes[1].phrasing = phrasing;
        marked = study.notes[1].id;
        EngravingOptions options;
        options.strings = strings;
        for (std::size_t i = 0; i < 4; ++i)
            options.places[study.notes[i].id] = {i % 2 == 0 ? 4 : 3, i < 2 ? 10 : 12};
        auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
        EXPECT_TRUE(systems);
        return systems->front();
    }
};

// What the upper note of a double stop has is drawn as if it were alone.
TEST_F(UpperNote, HasItsOwnMarks) {
    const auto count = [&](const Phrasing& phrasing, char32_t codePoint) {
        return all(together(phrasing), codePoint).size();
    };
    Phrasing phrasing;
    phrasing.accented = phrasing.staccato = phrasing.tenuto = true;
    EXPECT_EQ(count(phrasing, 0xE4A0) + count(phrasing, 0xE4A1), 1u);
    EXPECT_EQ(count(phrasing, 0xE4A2) + count(phrasing, 0xE4A3), 1u);
    EXPECT_EQ(count(phrasing, 0xE4A4) + count(phrasing, 0xE4A5), 1u);
    phrasing = {};
    phrasing.trill = 2;
    EXPECT_EQ(count(phrasing, 0xE566), 1u);
    phrasing = {};
    phrasing.vibrato = true;
    EXPECT_GT(count(phrasing, 0xEAB0), 3u);
    phrasing = {};
    phrasing.mordent = Mordent::Lower;
    EXPECT_EQ(count(phrasing, 0xE56D), 1u);
    phrasing = {};
    phrasing.letRing = true;
    EXPECT_EQ(all(together(phrasing), "let ring").size(), 1u);
}

TEST_F(UpperNote, HasSlideFallScoopAndBendAtItsOwnHead) {
    Phrasing phrasing;
    phrasing.scoop = phrasing.fall = true;
    EngravedSystem system = together(phrasing);
    const double y = only(system, 0xE5D0).at.y;
    EXPECT_EQ(only(system, 0xE5D7).at.y, y);
    const PageBox head = boxOn(system, marked);
    EXPECT_NEAR(y, (head.top + head.bottom) / 2, 0.1);
    phrasing = {};
    phrasing.slideIn = SlideFrom::Below;
    system = together(phrasing);
    const auto strokes =
        std::count_if(system.shapes.lines.begin(), system.shapes.lines.end(), [&](const PlacedLine& line) {
            return line.note == marked && line.to.x - line.from.x > 1;
        });
    EXPECT_EQ(strokes, 1);
    const std::size_t plain = together({}, 6).shapes.curves.size();
    phrasing = {};
    phrasing.bend = Bend{2, BendShape::Up};
    system = together(phrasing, 6);
    EXPECT_EQ(system.shapes.curves.size(), plain + 2) << "on the staff and on its string";
    EXPECT_EQ(all(system, "½").size(), 1u);
}

} // namespace
} // namespace earwright
