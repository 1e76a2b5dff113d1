#include "core/engraving/Fingering.h"

#include "core/engraving/HandMove.h"

#include <algorithm>
#include <cstdlib>
#include <functional>
#include <gtest/gtest.h>
#include <limits>
#include <random>
#include <set>

namespace earwright {
namespace {

/// Eighths one after the other; each names its MIDI number.
std::vector<Note> lineOf(const std::vector<int>& pitches) {
    std::vector<Note> notes;
    for (const int midi : pitches) {
        Note note;
        note.id = {notes.size() + 1};
        note.onset = Beats(static_cast<std::int64_t>(notes.size()), 2);
        note.length = Beats(1, 2);
        note.pitch.midi = midi;
        notes.push_back(note);
    }
    return notes;
}

/// As guitarists say it: strings counted from 1, the highest.
using Frets = std::vector<std::pair<int, int>>;

Frets fretsOf(const std::vector<Note>& notes, const Fingering& fingering) {
    Frets frets;
    for (const Note& note : notes) {
        const auto place = fingering.places.find(note.id);
        if (place == fingering.places.end())
            frets.emplace_back(0, 0);
        else
            frets.emplace_back(place->second.string + 1, place->second.fret);
    }
    return frets;
}

Frets guitar(const std::vector<Note>& notes) {
    return fretsOf(notes, fingered(notes, {}));
}

TEST(Fingering, PlaysThePentatonicOfAInTheBoxAtTheFifthFret) {
    // A minor pentatonic over two octaves, the first box every guitarist learns (common practice).
    EXPECT_EQ(
        guitar(lineOf({45, 48, 50, 52, 55, 57, 60, 62, 64, 67, 69, 72})),
        (Frets{
            {6, 5}, {6, 8}, {5, 5}, {5, 7}, {4, 5}, {4, 7}, {3, 5}, {3, 7}, {2, 5}, {2, 8}, {1, 5}, {1, 8}}));
}

TEST(Fingering, PlaysTheBluesScaleOfGInOnePosition) {
    // G B♭ C D♭ D F G from the third fret, the first finger there throughout (common practice).
    EXPECT_EQ(guitar(lineOf({43, 46, 48, 49, 50, 53, 55})),
              (Frets{{6, 3}, {6, 6}, {5, 3}, {5, 4}, {5, 5}, {4, 3}, {4, 5}}));
}

TEST(Fingering, StaysInOnePositionForAScaleOfAnOctave) {
    const Frets frets = guitar(lineOf({48, 50, 52, 53, 55, 57, 59, 60}));
    const auto [low, high] =
        std::minmax_element(frets.begin(), frets.end(), [](auto a, auto b) { return a.second < b.second; });
    EXPECT_LE(high->second - low->second, 3);
}

TEST(Fingering, TakesTheOnlyPlacesOfTheLowestNotes) {
    EXPECT_EQ(guitar(lineOf({40, 41, 43})), (Frets{{6, 0}, {6, 1}, {6, 3}}));
}

TEST(Fingering, KeepsASlurOnOneString) {
    // The box above changes the string between A and C.
    std::vector<Note> notes = lineOf({52, 55, 57, 60, 62, 64, 67});
    const Frets picked = guitar(notes);
    EXPECT_NE(picked[2].first, picked[3].first);
    notes[3].phrasing.slurred = true;
    const Frets slurred = guitar(notes);
    EXPECT_EQ(slurred[2].first, slurred[3].first);
}

TEST(Fingering, KeepsASlideToTheNextNoteOnOneString) {
    std::vector<Note> notes = lineOf({52, 55, 57, 60, 62, 64, 67});
    EXPECT_NE(guitar(notes)[2].first, guitar(notes)[3].first);
    notes[2].phrasing.slidesToNext = true;
    const Frets frets = guitar(notes);
    EXPECT_EQ(frets[2].first, frets[3].first);
}

TEST(Fingering, LetsAHeldNoteRing) {
    // C held while E above it is struck: the E cannot be on the C's string.
    std::vector<Note> notes = lineOf({60, 64});
    notes[0].length = Beats(2);
    const Frets frets = guitar(notes);
    EXPECT_NE(frets[0].first, frets[1].first);
}

TEST(Fingering, LaysADoubleStopOnTwoStrings) {
    std::vector<Note> notes = lineOf({62, 67});
    notes[1].onset = notes[0].onset;
    const Fingering fingering = fingered(notes, {});
    ASSERT_EQ(fingering.places.size(), 2u);
    EXPECT_NE(fingering.places.at({1}).string, fingering.places.at({2}).string);
    EXPECT_LE(std::abs(fingering.places.at({1}).fret - fingering.places.at({2}).fret), 5);
}

TEST(Fingering, PlaysTheScaleOfGInTheSecondPosition) {
    // Two octaves of G major from the third fret, the second finger on the root (common practice).
    EXPECT_EQ(guitar(lineOf({43, 45, 47, 48, 50, 52, 54, 55, 57, 59, 60, 62, 64, 66, 67})), (Frets{{6, 3},
                                                                                                   {6, 5},
                                                                                                   {5, 2},
                                                                                                   {5, 3},
                                                                                                   {5, 5},
                                                                                                   {4, 2},
                                                                                                   {4, 4},
                                                                                                   {4, 5},
                                                                                                   {3, 2},
                                                                                                   {3, 4},
                                                                                                   {3, 5},
                                                                                                   {2, 3},
                                                                                                   {2, 5},
                                                                                                   {1, 2},
                                                                                                   {1, 3}}));
}

TEST(Fingering, StretchesOneFingerAtATime) {
    // Down from the fifteenth fret and back up to F A C B B♭ A♭: the C that lies beside the B, and not the
    // one on the next string four frets below it.
    const Frets frets = guitar(lineOf({79, 75, 72, 71, 70, 69, 67, 66, 65, 64, 65, 69, 72, 71, 70, 68}));
    for (std::size_t i = 9; i < frets.size(); ++i)
        EXPECT_LE(std::abs(frets[i].second - frets[i - 1].second), 3) << testing::PrintToString(frets);
}

TEST(Fingering, TakesNoOpenStringFarUpTheNeck) {
    // Double stops about the tenth fret, among them E4 and F4, which the open first string would offer.
    std::vector<Note> notes = lineOf({69, 72, 72, 75, 69, 71, 65, 69, 64, 65, 68, 74, 67, 73});
    for (std::size_t i = 0; i < notes.size(); ++i)
        notes[i].onset = Beats(static_cast<std::int64_t>(i / 2), 2);
    for (const auto& [string, fret] : guitar(notes))
        EXPECT_GT(fret, 0) << string;
}

// As a line is played on a keyboard, each note let go a little after the next was struck: it is fingered as
// if it had been let go in time.
TEST(Fingering, HoldsNoStringForWhatOnlyReachesIntoTheNextNote) {
    const std::vector<int> pitches{71, 72, 69, 67, 64, 66, 62, 64, 67, 71, 69, 64, 62, 59, 62, 64};
    const std::vector<Note> clean = lineOf(pitches);
    std::vector<Note> smooth = clean;
    for (Note& note : smooth)
        note.length += Beats(1, 8);
    EXPECT_EQ(guitar(smooth), guitar(clean));
    std::vector<Note> held = clean;
    for (Note& note : held)
        note.length += Beats(1, 2);
    const Frets apart = guitar(held);
    for (std::size_t i = 1; i < apart.size(); ++i)
        EXPECT_NE(apart[i].first, apart[i - 1].first) << i;
}

TEST(Fingering, TakesOpenStringsNearTheNut) {
    // Up an E7 from the lowest note and back to it: D, G and the high E are open, as every blues in E begins
    // (common practice), and nothing lies beyond the fourth fret.
    const std::vector<Note> notes =
        lineOf({40, 43, 44, 47, 50, 52, 55, 56, 59, 62, 64, 62, 59, 55, 52, 50, 47, 45, 43, 40});
    const Frets frets = guitar(notes);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const int midi = notes[i].pitch.midi;
        if (midi == 50 || midi == 55 || midi == 64)
            EXPECT_EQ(frets[i].second, 0) << midi;
        else
            EXPECT_LE(frets[i].second, 4) << midi;
    }
}

TEST(Fingering, ComesBackDownTheNeckAfterAHighNote) {
    std::vector<int> pitches{57, 60, 62, 64, 67, 69, 84};
    for (int times = 0; times < 4; ++times)
        pitches.insert(pitches.end(), {57, 60, 62, 64, 67, 69});
    const Frets frets = guitar(lineOf(pitches));
    // The high note is only on the first string, at the 20th fret; everything else can be had below the 12th.
    EXPECT_EQ(frets[6], (std::pair{1, 20}));
    EXPECT_LE(frets.back().second, 12);
}

int farthestJump(const Frets& frets) {
    int farthest = 0;
    for (std::size_t i = 1; i < frets.size(); ++i)
        farthest = std::max(farthest, std::abs(frets[i].second - frets[i - 1].second));
    return farthest;
}

TEST(Fingering, WalksDownTheNeckInTheMiddleOfALine) {
    // From the fifteenth fret down in eighths, without a rest, and on about the fifth: the hand goes by way
    // of what lies between, no more than five frets at once (common practice).
    const Frets frets =
        guitar(lineOf({82, 80, 79, 77, 75, 73, 72, 71, 70, 68, 63, 65, 67, 68, 67, 65, 61, 60, 58, 56}));
    EXPECT_LE(farthestJump(frets), 5) << testing::PrintToString(frets);
}

TEST(Fingering, ShiftsDuringARest) {
    // Low on the neck, a rest of a beat, and then a line that goes on about the eighth fret: the hand moves
    // in the rest, and not in the middle of what follows (common practice).
    std::vector<Note> notes = lineOf({49, 53, 51, 46, 44, 68, 65, 67, 65, 66, 67, 65, 62, 59, 55, 62, 60,
                                      58, 55, 60, 62, 63, 66, 67, 65, 66, 64, 65, 68, 70, 72, 75, 72});
    for (std::size_t i = 5; i < notes.size(); ++i)
        notes[i].onset += Beats(1);
    Frets frets = guitar(notes);
    frets.erase(frets.begin(), frets.begin() + 5);
    for (const auto& [string, fret] : frets)
        EXPECT_GE(fret, 5) << testing::PrintToString(frets);
}

// Up and down over a seventh and more: eighths leave time to climb along a string, sixteenths are played
// where the hand is.
TEST(Fingering, StaysInOnePositionInARunOfSixteenths) {
    const auto span = [](const Frets& frets) {
        const auto byFret = [](const auto& a, const auto& b) { return a.second < b.second; };
        const auto [lowest, highest] = std::minmax_element(frets.begin(), frets.end(), byFret);
        return highest->second - lowest->second;
    };
    std::vector<Note> line = lineOf({69, 70, 71, 75, 77, 79, 82, 81, 77, 75, 71, 67});
    EXPECT_GT(span(guitar(line)), 4);
    for (Note& note : line) {
        note.onset = note.onset / 2;
        note.length = note.length / 2;
    }
    EXPECT_LE(span(guitar(line)), 4);
}

TEST(Fingering, LetsTheNotesOfABrokenChordRing) {
    // C major up and down: five notes that sound together need five strings, and each is struck again where
    // it rings already.
    std::vector<Note> notes = lineOf({48, 52, 55, 60, 64, 60, 55, 52});
    for (Note& note : notes)
        note.phrasing.letRing = true;
    const Frets frets = guitar(notes);
    std::set<int> strings;
    for (std::size_t i = 0; i < 5; ++i)
        strings.insert(frets[i].first);
    EXPECT_EQ(strings.size(), 5u);
    EXPECT_EQ(frets[5], frets[3]);
    EXPECT_EQ(frets[6], frets[2]);
    EXPECT_EQ(frets[7], frets[1]);
}

TEST(Fingering, KeepsTheStringOfANoteThatIsHeldUnderSeveral) {
    std::vector<Note> notes = lineOf({57, 64, 62, 60});
    notes[0].length = Beats(2);
    const Frets frets = guitar(notes);
    for (const std::size_t i : {1u, 2u, 3u})
        EXPECT_NE(frets[i].first, frets[0].first) << i;
}

TEST(Fingering, BendsAndShakesOnlyWhatAFingerHolds) {
    // B3 and E4 are open strings; in the first position they would be played so.
    for (const int midi : {59, 64}) {
        std::vector<Note> notes = lineOf({midi});
        notes[0].phrasing.vibrato = true;
        EXPECT_GT(guitar(notes)[0].second, 0);
        notes[0].phrasing = {};
        notes[0].phrasing.bend = Bend{4, BendShape::Up};
        EXPECT_GE(guitar(notes)[0].second, 3);
    }
}

TEST(Fingering, SpreadsTheFingersOfADoubleStopOverFourFretsAtMost) {
    std::mt19937 random(11);
    for (int round = 0; round < 60; ++round) {
        const int low = std::uniform_int_distribution(45, 70)(random);
        std::vector<Note> notes = lineOf({low, low + 1 + static_cast<int>(random() % 14)});
        notes[1].onset = notes[0].onset;
        const Fingering fingering = fingered(notes, {});
        if (fingering.places.size() < 2) continue;
        const int one = fingering.places.at({1}).fret;
        const int other = fingering.places.at({2}).fret;
        EXPECT_TRUE(one == 0 || other == 0 || std::abs(one - other) <= 4) << low;
    }
}

TEST(Fingering, PutsAPinnedNoteWhereTheUserWantsIt) {
    const std::vector<Note> notes = lineOf({57, 60, 62});
    const auto pinned = [&](int string) {
        std::vector<Note> wished = notes;
        wished[1].pinnedString = string;
        return guitar(wished);
    };
    EXPECT_EQ(pinned(3)[1], (std::pair{4, 10}));
    EXPECT_EQ(pinned(1)[1], (std::pair{2, 1}));
    // Middle C is not on the first string: the wish is passed over.
    EXPECT_EQ(pinned(0), guitar(notes));
}

TEST(Fingering, ReportsWhatIsNotOnTheNeck) {
    const std::vector<Note> notes = lineOf({39, 40, 86, 87});
    const Fingering fingering = fingered(notes, {});
    EXPECT_EQ(fingering.unplayable, (std::vector<NoteId>{{1}, {4}}));
    EXPECT_EQ(fingering.places.at({2}), (TabPlace{5, 0}));
    EXPECT_EQ(fingering.places.at({3}), (TabPlace{0, 22}));
}

TEST(Fingering, GivesUpTheLowestOfNotesThatOneStringWouldHaveToShare) {
    std::vector<Note> notes = lineOf({40, 41});
    notes[1].onset = notes[0].onset;
    const Fingering fingering = fingered(notes, {});
    EXPECT_EQ(fingering.unplayable, (std::vector<NoteId>{{1}}));
    EXPECT_EQ(fingering.places.at({2}), (TabPlace{5, 1}));
}

TEST(Fingering, CountsFretsFromTheCapo) {
    StringTuning tuning;
    tuning.capo = 3;
    const std::vector<Note> notes = lineOf({43, 42});
    const Fingering fingering = fingered(notes, tuning);
    EXPECT_EQ(fingering.places.at({1}), (TabPlace{5, 0}));
    EXPECT_EQ(fingering.unplayable, (std::vector<NoteId>{{2}}));
}

TEST(Fingering, FindsTheNextStringThatHasTheNote) {
    // E4 is the open first string, the 5th fret of the second, and so on down to the 24th of the sixth, which
    // a neck of 22 frets has not.
    const Note note = lineOf({64}).front();
    EXPECT_EQ(neighbourString(note, {}, 1, true), 0);
    EXPECT_EQ(neighbourString(note, {}, 1, false), 2);
    EXPECT_EQ(neighbourString(note, {}, 0, true), std::nullopt);
    EXPECT_EQ(neighbourString(note, {}, 4, false), std::nullopt);
}

TEST(Fingering, KnowsNoNotes) {
    EXPECT_EQ(fingered({}, {}), Fingering{});
}

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

TEST(Fingering, IsTheCheapestOfAllWays) {
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

TEST(Fingering, AlwaysSoundsThePitchThatIsWritten) {
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

TEST(Fingering, StaysSmallForNotesPiledOnOnePlace) {
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
