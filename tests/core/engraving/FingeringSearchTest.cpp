// That the search leaves no better way out, whatever it is given.
#include "core/engraving/HandMove.h"
#include "tests/core/engraving/FingeredLine.h"

#include <algorithm>
#include <functional>
#include <gtest/gtest.h>
#include <limits>
#include <random>

namespace earwright {
namespace {

using namespace tests;

double costOfWay(const std::vector<Note>& notes, const std::vector<HandPlace>& way,
                 const StringTuning& tuning) {
    double cost = 0;
    for (std::size_t i = 0; i < way.size(); ++i) {
        cost += costOfPlace({notes[i]}, way[i], tuning);
        if (i > 0) cost += HandMove({notes[i - 1]}, {notes[i]}).cost(way[i - 1], way[i]);
    }
    return cost;
}

/// Of every way there is, without any planning.
double leastCostByTryingAll(const std::vector<Note>& notes, const StringTuning& tuning,
                            const std::function<bool(std::size_t, int)>& isAllowed) {
    double least = std::numeric_limits<double>::infinity();
    std::vector<HandPlace> way;
    const std::function<void()> extend = [&] {
        if (way.size() == notes.size()) {
            least = std::min(least, costOfWay(notes, way, tuning));
            return;
        }
        for (int string = 0; string < static_cast<int>(tuning.strings.size()); ++string)
            for (int position = 1; position <= tuning.highestFret(); ++position) {
                const int fret = notes[way.size()].pitch.midi - tuning.openPitch(string);
                const HandPlace hand{position, {{string, fret}}};
                if (fret < 0 || fret > tuning.highestFret() || !isInReach(hand)) continue;
                if (!isAllowed(way.size(), string)) continue;
                way.push_back(hand);
                extend();
                way.pop_back();
            }
    };
    extend();
    return least;
}

std::vector<Note> randomLine(std::mt19937& random, int count, int lowest, int highest) {
    std::vector<int> pitches;
    for (int i = 0; i < count; ++i)
        pitches.push_back(std::uniform_int_distribution(lowest, highest)(random));
    std::vector<Note> notes = lineOf(pitches);
    for (Note& note : notes) {
        note.phrasing.slurred = random() % 3 == 0;
        if (random() % 4 == 0) note.length = Beats(1);
        if (random() % 5 == 0) note.phrasing.slideOut = SlideTo::Up;
    }
    return notes;
}

TEST(FingeringSearch, IsTheCheapestOfAllWays) {
    std::mt19937 random(20310504);
    const StringTuning small{{64, 59, 55}, 9, 0};
    for (int round = 0; round < 25; ++round) {
        const std::vector<Note> notes = randomLine(random, 4, 55, 72);
        const Fingering fingering = fingered(notes, small);
        ASSERT_TRUE(fingering.unplayable.empty());
        const double least = leastCostByTryingAll(notes, small, [](std::size_t, int) { return true; });
        // The strings chosen, with the best positions for them, cost no more than anything else.
        const double chosen = leastCostByTryingAll(notes, small, [&](std::size_t i, int string) {
            return fingering.places.at(notes[i].id).string == string;
        });
        EXPECT_NEAR(chosen, least, 1e-9) << "round " << round;
    }
}

TEST(FingeringSearch, AlwaysSoundsThePitchThatIsWritten) {
    std::mt19937 random(7);
    for (const NamedTuning& named : namedTunings()) {
        ASSERT_TRUE(isPlayable(named.tuning)) << named.name;
        StringTuning tuning = named.tuning;
        tuning.capo = static_cast<int>(random() % 5);
        const std::vector<Note> notes = randomLine(random, 60, 28, 96);
        const Fingering fingering = fingered(notes, tuning);
        EXPECT_EQ(fingering.places.size() + fingering.unplayable.size(), notes.size());
        for (const auto& [id, place] : fingering.places) {
            EXPECT_EQ(tuning.openPitch(place.string) + place.fret, notes[id.value - 1].pitch.midi);
            EXPECT_GE(place.fret, 0);
            EXPECT_LE(place.fret, tuning.highestFret());
        }
        for (const NoteId id : fingering.unplayable)
            for (int string = 0; string < static_cast<int>(tuning.strings.size()); ++string) {
                const int fret = notes[id.value - 1].pitch.midi - tuning.openPitch(string);
                EXPECT_TRUE(fret < 0 || fret > tuning.highestFret());
            }
    }
}

TEST(FingeringSearch, StaysSmallForNotesPiledOnOnePlace) {
    std::vector<Note> notes = lineOf(std::vector<int>(200, 60));
    for (Note& note : notes)
        note.onset = Beats(0);
    // A guitar with a low B and a low F sharp (common practice).
    const StringTuning eight{{64, 59, 55, 50, 45, 40, 35, 30}, 24};
    const Fingering fingering = fingered(notes, eight);
    EXPECT_EQ(fingering.places.size() + fingering.unplayable.size(), notes.size());
    EXPECT_GE(fingering.places.size(), 1u);
}

} // namespace
} // namespace earwright
