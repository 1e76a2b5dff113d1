#include "core/engraving/PageBeams.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using Words = std::vector<std::string>;

/// Beams of the first bar of notes that follow each other without a rest.
std::vector<Words> beamsOf(const std::vector<Beats>& lengths, const Meter& meter = {}) {
    Study study;
    Beats at;
    for (const Beats& length : lengths) {
        Note note;
        note.onset = at;
        note.length = length;
        study.notes.push_back(note);
        at += length;
    }
    const auto bars = pageBars(pageLine(study), MeterMap(meter, {}), 1);
    return pageBeams(bars->front());
}

TEST(PageBeams, JoinsTheEighthsOfOneBeat) {
    const auto beams = beamsOf({Beats(1, 2), Beats(1, 2), Beats(1, 2), Beats(1, 2), Beats(2)});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"end"}, {"begin"}, {"end"}, {}}));
}

TEST(PageBeams, HooksASixteenthToADottedEighth) {
    const auto beams = beamsOf({Beats(3, 4), Beats(1, 4), Beats(3)});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"end", "backward hook"}, {}}));
    EXPECT_EQ(beamsOf({Beats(1, 4), Beats(1, 2), Beats(1, 4), Beats(3)})[0],
              (Words{"begin", "forward hook"}));
}

TEST(PageBeams, LeavesALoneEighthItsFlag) {
    EXPECT_EQ(beamsOf({Beats(1, 2)})[0], Words{});
    EXPECT_EQ(beamsOf({Beats(1, 3), Beats(2, 3), Beats(3)})[0], Words{});
}

TEST(PageBeams, JoinsThreeEighthsInCompoundMeters) {
    const auto beams = beamsOf({Beats(1), Beats(1), Beats(1), Beats(3)}, {6, 8});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"continue"}, {"end"}, {}}));
}

} // namespace
} // namespace earwright
