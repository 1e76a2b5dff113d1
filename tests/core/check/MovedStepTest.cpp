#include "core/check/MovedStep.h"

#include <gtest/gtest.h>
#include <string>
#include <utility>

namespace earwright {
namespace {

/// A bar of eighths at 120 beats a minute from 1 s on, found to be off together by as much as is said.
struct MovedBar {
    Study study;
    std::vector<CheckedNote> notes;

    explicit MovedBar(Seconds later) : MovedBar(later, later) {}
    MovedBar(Seconds onBeat, Seconds offBeat) {
        study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(3)}});
        const OffTogether together{{Seconds(1), Seconds(3)}, 8, (onBeat + offBeat) * 0.5};
        for (int i = 0; i < 8; ++i) {
            const NoteId id{static_cast<std::uint64_t>(i + 1)};
            study.notes.push_back({id, Beats(i, 2), Beats(1, 2), Pitch{60 + i, {}}, 0.6, {}});
            const Seconds begin(1 + 0.25 * i);
            CheckedNote note{id, {begin, begin + Seconds(0.25)}, 60 + i, Verdict::Contradicted};
            note.beginsAt = begin + (i % 2 == 0 ? onBeat : offBeat);
            note.together = together;
            notes.push_back(note);
        }
    }

    std::optional<Beats> step() {
        tellSteps(notes, study);
        for (const CheckedNote& note : notes)
            EXPECT_EQ(note.together, notes.front().together) << "all are told the same";
        return notes.front().together->step;
    }
};

TEST(MovedStep, TellsTheStepThatPutsARunWhereItBegins) {
    const std::vector<std::pair<double, Beats>> steps{
        {0.125, Beats(1, 4)}, {0.167, Beats(1, 3)}, {0.25, Beats(1, 2)}, {0.5, Beats(1)}, {1.0, Beats(2)}};
    for (const auto& [seconds, step] : steps)
        for (const double played : {-0.015, 0.0, 0.015}) {
            EXPECT_EQ(MovedBar(Seconds(seconds + played)).step(), step) << seconds << ' ' << played;
            EXPECT_EQ(MovedBar(Seconds(-seconds + played)).step(), -step) << seconds << ' ' << played;
        }
}

TEST(MovedStep, TellsAnEighthAlsoWhereEighthsSwingThatAreWrittenEvenly) {
    // Two to one: from on the beat back to off it is 167 ms, from off the beat to on it 250 ms and 83 less.
    EXPECT_EQ(MovedBar(Seconds(-0.167), Seconds(-0.25)).step(), -Beats(1, 2));
}

TEST(MovedStep, TellsNoneWhereARunIsNearToNone) {
    EXPECT_FALSE(MovedBar(Seconds(0.62)).step()) << "midway between a quarter and a dotted one";
}

TEST(MovedStep, LeavesARunInAnotherOctaveAlone) {
    MovedBar bar(Seconds(0.25));
    for (CheckedNote& note : bar.notes)
        note.together->semitones = 12;
    EXPECT_FALSE(bar.step());
}

TEST(MovedStep, NamesAStepWhicheverWayItGoes) {
    EXPECT_EQ(std::string(nameOfStep(Beats(1, 2))), "an eighth");
    EXPECT_EQ(std::string(nameOfStep(-Beats(1, 2))), "an eighth");
    EXPECT_EQ(std::string(nameOfStep(Beats(1, 3))), "a triplet eighth");
    EXPECT_EQ(std::string(nameOfStep(Beats(5, 7))), "");
}

} // namespace
} // namespace earwright
