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
    const auto beams = beamsOf({Beats(1, 2), Beats(1, 2), Beats(1), Beats(1, 2), Beats(1, 2), Beats(1)});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"end"}, {}, {"begin"}, {"end"}, {}}));
}

// Common practice in lines of eighths: the eye takes in half a bar.
TEST(PageBeams, JoinsFourEighthsThatFillHalfABar) {
    const std::vector<Words> half{{"begin"}, {"continue"}, {"continue"}, {"end"}};
    std::vector<Words> both = half;
    both.insert(both.end(), half.begin(), half.end());
    const std::vector<Beats> eighths(8, Beats(1, 2));
    EXPECT_EQ(beamsOf(eighths), both);
    EXPECT_EQ(beamsOf(std::vector<Beats>(4, Beats(1, 2)), {2, 4}), half);
}

TEST(PageBeams, KeepsTheBeatsOfAHalfBarApartThatHasOtherValues) {
    const std::vector<Words> pairs{{"begin"}, {"end"}, {"begin"}, {"end"}};
    const auto firstFour = [](std::vector<Words> beams) {
        beams.resize(4);
        return beams;
    };
    // Over the middle of the bar, and in three quarters.
    EXPECT_EQ(firstFour(beamsOf({Beats(1), Beats(1, 2), Beats(1, 2), Beats(1, 2), Beats(1, 2), Beats(1)})),
              (std::vector<Words>{{}, {"begin"}, {"end"}, {"begin"}}));
    EXPECT_EQ(firstFour(beamsOf(std::vector<Beats>(6, Beats(1, 2)), {3, 4})), pairs);
    const auto sixteenths =
        beamsOf({Beats(1, 2), Beats(1, 2), Beats(1, 2), Beats(1, 4), Beats(1, 4), Beats(2)});
    EXPECT_EQ(sixteenths[1], Words{"end"});
    const auto triplet = beamsOf({Beats(1, 2), Beats(1, 2), Beats(1, 3), Beats(1, 3), Beats(1, 3), Beats(2)});
    EXPECT_EQ(triplet[1], Words{"end"});
}

TEST(PageBeams, HooksASixteenthToADottedEighth) {
    const auto beams = beamsOf({Beats(3, 4), Beats(1, 4), Beats(3)});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"end", "backward hook"}, {}}));
    EXPECT_EQ(beamsOf({Beats(1, 4), Beats(1, 2), Beats(1, 4), Beats(3)})[0],
              (Words{"begin", "forward hook"}));
}

// Common practice: the sixteenth and the dotted eighth are the two parts of one beat.
TEST(PageBeams, HooksASixteenthAmongOthersToItsDottedEighth) {
    const Words back{"continue", "backward hook"}, on{"continue", "forward hook"};
    EXPECT_EQ(beamsOf({Beats(3, 2), Beats(1, 2), Beats(1), Beats(3)}, {6, 8})[1], back);
    EXPECT_EQ(beamsOf({Beats(1), Beats(1, 2), Beats(3, 2), Beats(3)}, {6, 8})[1], on);
    // So does a thirty-second with its dotted sixteenth.
    EXPECT_EQ(beamsOf({Beats(1, 2), Beats(1, 8), Beats(3, 8), Beats(3)})[1],
              (Words{"continue", "begin", "forward hook"}));
    EXPECT_EQ(beamsOf({Beats(3, 8), Beats(1, 8), Beats(1, 2), Beats(3)})[1],
              (Words{"continue", "end", "backward hook"}));
}

TEST(PageBeams, HooksASixteenthWithinItsTriplet) {
    // A triplet of sixteenths is written in half of the beat, an eighth in the other.
    EXPECT_EQ(beamsOf({Beats(1, 3), Beats(1, 6), Beats(1, 2), Beats(3)})[1],
              (Words{"continue", "backward hook"}));
    EXPECT_EQ(beamsOf({Beats(1, 2), Beats(1, 6), Beats(1, 3), Beats(3)})[1],
              (Words{"continue", "forward hook"}));
}

TEST(PageBeams, LeavesALoneEighthItsFlag) {
    EXPECT_EQ(beamsOf({Beats(1, 2)})[0], Words{});
    EXPECT_EQ(beamsOf({Beats(1, 3), Beats(2, 3), Beats(3)})[0], Words{});
}

TEST(PageBeams, JoinsThreeEighthsInCompoundMeters) {
    const auto beams = beamsOf({Beats(1), Beats(1), Beats(1), Beats(3)}, {6, 8});
    EXPECT_EQ(beams, (std::vector<Words>{{"begin"}, {"continue"}, {"end"}, {}}));
}

TEST(PageBeams, JoinsTheThreeEighthsOfAWholeBar) {
    const std::vector<Words> three{{"begin"}, {"continue"}, {"end"}};
    EXPECT_EQ(beamsOf({Beats(1), Beats(1), Beats(1)}, {3, 8}), three);
    const auto sixteenths = beamsOf({Beats(1), Beats(1), Beats(1), Beats(1), Beats(1), Beats(1)}, {6, 16});
    EXPECT_EQ(sixteenths[2], (Words{"end", "end"}));
    EXPECT_EQ(sixteenths[3], (Words{"begin", "begin"}));
}

TEST(PageBeams, JoinsOddNumbersOfEighthsInTwosAndALastThree) {
    const auto seven = beamsOf(std::vector<Beats>(7, Beats(1)), {7, 8});
    EXPECT_EQ(seven,
              (std::vector<Words>{{"begin"}, {"end"}, {"begin"}, {"end"}, {"begin"}, {"continue"}, {"end"}}));
    const auto five = beamsOf(std::vector<Beats>(5, Beats(1)), {5, 8});
    EXPECT_EQ(five, (std::vector<Words>{{"begin"}, {"end"}, {"begin"}, {"continue"}, {"end"}}));
}

// A dotted quarter and four eighths are 3 + 2 + 2.
TEST(PageBeams, JoinOddNumbersOfEighthsAsTheLongNotesOfTheirBarDivideIt) {
    const auto seven = beamsOf({Beats(3), Beats(1), Beats(1), Beats(1), Beats(1)}, {7, 8});
    EXPECT_EQ(seven, (std::vector<Words>{{}, {"begin"}, {"end"}, {"begin"}, {"end"}}));
    const auto eight = beamsOf({Beats(3), Beats(1), Beats(1), Beats(1), Beats(2)}, {8, 8});
    EXPECT_EQ(eight, (std::vector<Words>{{}, {"begin"}, {"continue"}, {"end"}, {}}));
}

// Gould, "Behind Bars", from memory: of thirty-seconds each eighth has its own inner beams.
TEST(PageBeams, ShowTheEighthsOfThirtySeconds) {
    std::vector<Beats> lengths(8, Beats(1, 8));
    lengths.emplace_back(3);
    const auto beams = beamsOf(lengths);
    EXPECT_EQ(beams[3], (Words{"continue", "end", "end"}));
    EXPECT_EQ(beams[4], (Words{"continue", "begin", "begin"}));
    const auto mixed = beamsOf({Beats(1, 4), Beats(1, 4), Beats(1, 4), Beats(1, 8), Beats(1, 8), Beats(3)});
    EXPECT_EQ(mixed[1], (Words{"continue", "end"}));
    EXPECT_EQ(mixed[2], (Words{"continue", "begin"}));
    const auto sixteenths = beamsOf({Beats(1, 4), Beats(1, 4), Beats(1, 4), Beats(1, 4), Beats(3)});
    EXPECT_EQ(sixteenths[2], (Words{"continue", "continue"}));
    // An eighth has no inner beam to divide.
    const auto eighth = beamsOf({Beats(1, 2), Beats(1, 8), Beats(1, 8), Beats(1, 4), Beats(3)});
    EXPECT_EQ(eighth[1], (Words{"continue", "begin", "begin"}));
}

// A tuplet is one group, also over more than one beat (common practice).
TEST(PageBeams, JoinsAQuintupletOverTwoBeats) {
    const auto beams = beamsOf({Beats(2, 5), Beats(2, 5), Beats(2, 5), Beats(2, 5), Beats(2, 5), Beats(1, 2),
                                Beats(1, 2), Beats(1)});
    EXPECT_EQ(beams,
              (std::vector<Words>{
                  {"begin"}, {"continue"}, {"continue"}, {"continue"}, {"end"}, {"begin"}, {"end"}, {}}));
    const auto triplet = beamsOf({Beats(1, 3), Beats(1, 3), Beats(2, 3), Beats(2, 3), Beats(2)});
    EXPECT_EQ(triplet, (std::vector<Words>{{"begin"}, {"end"}, {}, {}, {}}));
}

} // namespace
} // namespace earwright
