#include "core/music/WrittenDynamics.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

PageMarks marked(std::vector<DynamicMark> dynamics, std::vector<Hairpin> hairpins = {}) {
    PageMarks page;
    page.dynamics = std::move(dynamics);
    page.hairpins = std::move(hairpins);
    return page;
}

TEST(WrittenDynamics, StandUntilTheNextMark) {
    const PageMarks page = marked({{Beats(2), Dynamic::pp}, {Beats(4), Dynamic::ff}});
    EXPECT_EQ(dynamicFactor(page, Beats(1)), 1);
    // MIDI velocities 33 and 112 of 80 (common practice of notation programs).
    EXPECT_DOUBLE_EQ(dynamicFactor(page, Beats(2)), 33.0 / 80);
    EXPECT_DOUBLE_EQ(dynamicFactor(page, Beats(7, 2)), 33.0 / 80);
    EXPECT_DOUBLE_EQ(dynamicFactor(page, Beats(9)), 112.0 / 80);
}

TEST(WrittenDynamics, RiseAlongAHairpinToTheMarkAtItsEnd) {
    const PageMarks page = marked({{Beats(0), Dynamic::p}, {Beats(4), Dynamic::f}},
                                  {{{Beats(0), Beats(4)}, HairpinKind::Louder}});
    EXPECT_DOUBLE_EQ(dynamicFactor(page, Beats(2)), (49.0 + 96.0) / 2 / 80);
}

TEST(WrittenDynamics, GoOnFromWhereAHairpinLed) {
    const PageMarks swell = marked({{Beats(0), Dynamic::p}}, {{{Beats(0), Beats(4)}, HairpinKind::Louder},
                                                              {{Beats(4), Beats(8)}, HairpinKind::Softer}});
    const double soft = 49.0 / 80;
    EXPECT_DOUBLE_EQ(dynamicFactor(swell, Beats(4)), soft * 1.2);
    EXPECT_DOUBLE_EQ(dynamicFactor(swell, Beats(8)), soft);
    const PageMarks twice = marked(
        {}, {{{Beats(0), Beats(4)}, HairpinKind::Louder}, {{Beats(4), Beats(8)}, HairpinKind::Louder}});
    EXPECT_DOUBLE_EQ(dynamicFactor(twice, Beats(9)), 1.2 * 1.2);
}

TEST(WrittenDynamics, RiseToTheirEndThoughASoftMarkFollowsAtOnce) {
    const PageMarks subito = marked({{Beats(0), Dynamic::f}, {Beats(4), Dynamic::p}},
                                    {{{Beats(0), Beats(4)}, HairpinKind::Louder}});
    EXPECT_GT(dynamicFactor(subito, Beats(3)), dynamicFactor(subito, Beats(0)));
    EXPECT_DOUBLE_EQ(dynamicFactor(subito, Beats(4)), 49.0 / 80);
}

TEST(WrittenDynamics, ShadeANoteBesideItsGhostAndAccentAndNeverBeyondFull) {
    Note note;
    note.onset = Beats(1);
    note.phrasing.accented = true;
    EXPECT_EQ(writtenLoudness({}, note), note.soundingLoudness());
    EXPECT_DOUBLE_EQ(writtenLoudness(marked({{Beats(0), Dynamic::pp}}), note),
                     note.soundingLoudness() * 33 / 80);
    EXPECT_EQ(writtenLoudness(marked({{Beats(0), Dynamic::fff}}), note), 1);
}

} // namespace
} // namespace earwright
