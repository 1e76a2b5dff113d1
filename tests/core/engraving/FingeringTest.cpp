#include "core/engraving/Fingering.h"

#include "core/engraving/HandMove.h"
#include "tests/core/engraving/FingeredLine.h"

#include <algorithm>
#include <cstdlib>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

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

Study studyAt(double quartersPerMinute) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(60), Seconds(3600 / quartersPerMinute)}});
    return study;
}

// The hand knows seconds and no beats: what leaves it time does so however it is written.
TEST(Fingering, ShiftsByTheTimeThereIs) {
    const std::vector<Note> eighths = lineOf({69, 70, 71, 75, 77, 79, 82, 81, 77, 75, 71, 67});
    std::vector<Note> sixteenths = eighths;
    for (Note& note : sixteenths) {
        note.onset = note.onset / 2;
        note.length = note.length / 2;
    }
    const auto places = [](const std::vector<Note>& notes, double tempo) {
        return fingered(notes, {}, LineTime(studyAt(tempo))).places;
    };
    const auto withTime = fingered(eighths, {}).places;
    const auto hurried = fingered(sixteenths, {}).places;
    ASSERT_NE(withTime, hurried);
    EXPECT_EQ(places(eighths, 120), withTime);
    EXPECT_EQ(places(eighths, 60), withTime);
    EXPECT_EQ(places(sixteenths, 60), withTime);
    EXPECT_EQ(places(sixteenths, 120), hurried);
    EXPECT_EQ(places(eighths, 240), hurried);
    EXPECT_EQ(places(sixteenths, 208), hurried);
}

double costOfShift(const Beats& length, const Beats& rest, const LineTime& time) {
    std::vector<Note> notes = lineOf({69, 70});
    notes[0].length = length;
    notes[1].onset = length + rest;
    const HandMove move({notes[0]}, {notes[1]}, time);
    return move.cost({5, {{0, 5}}}, {8, {{0, 8}}});
}

TEST(Fingering, FindsShiftsDearerAtHigherTempo) {
    const Beats none(0);
    double last = 0;
    for (const double tempo : {60.0, 190.0, 208.0, 240.0}) {
        const Study study = studyAt(tempo);
        const double cost = costOfShift(Beats(1, 2), none, LineTime(study));
        EXPECT_TRUE(tempo == 60 || cost > last) << tempo;
        last = cost;
    }
    const Study slow = studyAt(60);
    const Study fast = studyAt(240);
    EXPECT_LT(costOfShift(Beats(1), Beats(1), LineTime(slow)),
              costOfShift(Beats(1), Beats(1), LineTime(fast)))
        << "a rest of a second, and of a quarter of one";
    EXPECT_EQ(costOfShift(Beats(1, 4), none, LineTime(fast)), costOfShift(Beats(1, 8), none, {}));
}

// A run up to B5 at the seventeenth fret, a long D5 and a run at the fifth: the hand comes down while the
// long note sounds, and not in eighths at 160 (common practice).
TEST(Fingering, ComesDownBehindALongNoteAndNotInTheRunBefore) {
    std::vector<Note> notes = lineOf({76, 78, 79, 81, 83, 73, 74, 72, 71, 69, 67, 66, 64});
    notes[6].length = Beats(3);
    for (std::size_t i = 7; i < notes.size(); ++i)
        notes[i].onset += Beats(5, 2);
    const Study study = studyAt(160);
    const Fingering found = fingered(notes, {}, LineTime(study));
    EXPECT_EQ(found.places.at(notes[4].id), (TabPlace{0, 19}));
    EXPECT_GE(found.places.at(notes[5].id).fret, 14);
    EXPECT_GE(found.places.at(notes[6].id).fret, 15);
    EXPECT_LE(found.places.at(notes[7].id).fret, 13);
}

TEST(Fingering, FindsShiftsCheaperBehindLongNotes) {
    const Study study = studyAt(120);
    const Beats none(0);
    EXPECT_LT(costOfShift(Beats(2), none, LineTime(study)), costOfShift(Beats(1), none, LineTime(study)));
    EXPECT_LT(costOfShift(Beats(1), none, LineTime(study)), costOfShift(Beats(1, 2), none, LineTime(study)));
    EXPECT_LT(costOfShift(Beats(1), Beats(1), LineTime(study)), costOfShift(Beats(2), none, LineTime(study)))
        << "while nothing is held the hand is freer";
}

TEST(Fingering, GoesByTempoMarksWhereNoBeatsAreMarked) {
    Study study;
    study.page.tempos = {{Beats(2), "", 60.0}, {Beats(4), "Fast", {}}, {Beats(8), "", 240.0}};
    const LineTime time(study);
    const auto seconds = [&](int from, int to) { return (time.at(Beats(to)) - time.at(Beats(from))).value; };
    EXPECT_NEAR(seconds(0, 1), 1, 1e-9);
    EXPECT_NEAR(seconds(2, 8), 6, 1e-9);
    EXPECT_NEAR(seconds(6, 12), 3, 1e-9);
    study.meter = {6, 8};
    EXPECT_NEAR((LineTime(study).at(Beats(1)) - LineTime(study).at(Beats(0))).value, 0.5, 1e-9);
    study.page.tempos.clear();
    EXPECT_NEAR((LineTime(study).at(Beats(2)) - LineTime(study).at(Beats(0))).value, 0.5, 1e-9);
}

TEST(Fingering, KnowsThatSwungNotesOffTheBeatAreShort) {
    Study study = studyAt(160);
    study.page.swings = {{Beats(0), {2, 8}}};
    const LineTime time(study);
    EXPECT_NEAR((time.at(Beats(1)) - time.at(Beats(1, 2))).value, 0.125, 1e-9);
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

} // namespace
} // namespace earwright
