#include "core/study/BeatFigure.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>

namespace earwright {
namespace {

using Places = std::vector<Beats>;

Places placesOf(const BeatFigure& figure) {
    Places places;
    for (const int line : figure.lines)
        places.push_back(Beats(line, static_cast<int>(figure.division)));
    return places;
}

/// Every choice of lines of a beat in 1 to 8, the next beat's among them, counted by bits.
std::set<Places> everyChoice(std::size_t onsets) {
    std::set<Places> choices;
    for (int parts = 1; parts <= 8; ++parts)
        for (unsigned bits = 0; bits < 1u << (parts + 1); ++bits) {
            Places places;
            for (int line = 0; line <= parts; ++line)
                if (bits >> line & 1u) places.push_back(Beats(line, parts));
            if (places.size() == onsets) choices.insert(places);
        }
    return choices;
}

TEST(BeatFigures, AreAllThatABeatHoldsEachOnceAndInTheSimplestDivision) {
    for (const BeatKind kind : {BeatKind::Plain, BeatKind::Swung, BeatKind::OfThree})
        for (std::size_t onsets = 1; onsets <= 9; ++onsets) {
            std::set<Places> found;
            for (const BeatFigure& figure : beatFigures(onsets, kind)) {
                EXPECT_TRUE(found.insert(placesOf(figure)).second) << "twice, of " << onsets << " onsets";
                EXPECT_GE(figure.cost, 0);
            }
            EXPECT_EQ(found, everyChoice(onsets)) << onsets << " onsets";
        }
}

TEST(BeatFigures, OfNoOnsetsOrOfMoreThanABeatHasLinesAreNone) {
    for (const std::size_t onsets : {0u, 10u, 1000u})
        EXPECT_TRUE(beatFigures(onsets, BeatKind::Plain).empty());
}

double costOf(const Places& places, BeatKind kind) {
    for (const BeatFigure& figure : beatFigures(places.size(), kind))
        if (placesOf(figure) == places) return figure.cost;
    ADD_FAILURE() << "there is no such figure";
    return 0;
}

// Halves are everyday in a plain beat and thirds in one that three eighths are counted as; where eighths
// swing, sixteenths are rarer than where they do not (common practice).
TEST(BeatFigures, CostTheLessTheCommonerTheyAreInSuchABeat) {
    const Places halves{Beats(0), Beats(1, 2)};
    const Places thirds{Beats(0), Beats(1, 3), Beats(2, 3)};
    const Places quarters{Beats(0), Beats(1, 4), Beats(1, 2), Beats(3, 4)};
    EXPECT_LT(costOf(halves, BeatKind::Plain), costOf(thirds, BeatKind::Plain));
    EXPECT_LT(costOf(thirds, BeatKind::OfThree), costOf(halves, BeatKind::OfThree));
    EXPECT_LT(costOf(quarters, BeatKind::Plain), costOf(quarters, BeatKind::Swung));
    EXPECT_LT(costOf(thirds, BeatKind::Plain), costOf({Beats(0), Beats(1, 3)}, BeatKind::Plain))
        << "a figure that is begun is mostly finished";
}

} // namespace
} // namespace earwright
