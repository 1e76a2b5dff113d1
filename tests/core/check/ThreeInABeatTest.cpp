#include "core/check/ThreeInABeat.h"

#include "core/check/StudyPlaying.h"
#include "tests/core/listening/SyntheticSound.h"

#include <array>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

using Shares = std::array<double, 3>;
constexpr Shares asTriplet{0, 1.0 / 3, 2.0 / 3};
constexpr Shares asLongLast{0, 0.25, 0.5};

/// Five beats with one note, and between the second and the third of them one with three.
struct Line {
    std::array<Beats, 3> written{Beats(0), Beats(1, 4), Beats(1, 2)};
    double beatsPerMinute = 100;
    Seconds behind{0};

    Seconds beat() const { return Seconds(60 / beatsPerMinute); }

    Study study() const {
        Study study;
        study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 1.0_s + beat() * 4}});
        std::vector<Beats> places{Beats(0), Beats(1)};
        for (const Beats& place : written)
            places.push_back(Beats(2) + place);
        places.insert(places.end(), {Beats(3), Beats(4), Beats(5)});
        const std::array<int, 8> line{60, 63, 64, 67, 65, 62, 60, 58};
        for (std::size_t i = 0; i < places.size(); ++i) {
            const Beats end = i + 1 < places.size() ? places[i + 1] : Beats(6);
            study.notes.push_back({NoteId{i + 1}, places[i], end - places[i], Pitch{line[i], {}}, 0.6, {}});
        }
        return study;
    }

    AnalysisSound sound(const Shares& shares) const {
        const std::array<double, 9> places{0, 1, 2 + shares[0], 2 + shares[1], 2 + shares[2], 3, 4, 5, 6};
        AnalysisSound sound{silence(1.0_s + beat() * 7), {}};
        const Study page = study();
        for (std::size_t i = 0; i < page.notes.size(); ++i)
            addTone(sound.left,
                    {1.0_s + behind + beat() * places[i], 1.0_s + behind + beat() * places[i + 1] - 0.01_s},
                    page.notes[i].pitch.midi);
        return sound;
    }

    std::map<NoteId, HeardThree> heard(const Shares& shares) const {
        const Study page = study();
        const auto recording = RecordingEvidence::listen(sound(shares));
        const auto evidence = recording->passage({0.0_s, recording->duration()});
        return threesHeardOtherwise(page, page.notes, *evidence);
    }

    /// Of the second of the three.
    std::optional<ThreeInABeat> spacing(const Shares& shares) const {
        const auto all = heard(shares);
        const auto found = all.find(NoteId{4});
        return found == all.end() ? std::nullopt : std::optional(found->second.heard);
    }
};

const Line longLast;
// Slow enough for the long middle one, whose notes lie nearest to those of the triplet.
const Line triplet{{Beats(0), Beats(1, 3), Beats(2, 3)}, 84};

TEST(ThreeInABeat, IsATripletWhereTwoSixteenthsAndAnEighthAreWritten) {
    const auto heard = longLast.heard(asTriplet);
    const HeardThree expected{{Beats(2), Beats(9, 4), Beats(5, 2)}, ThreeInABeat::Triplet};
    ASSERT_EQ(heard.size(), 3u);
    for (const std::uint64_t note : {3u, 4u, 5u})
        EXPECT_EQ(heard.at(NoteId{note}), expected) << note;
    EXPECT_FALSE(longLast.spacing(asLongLast)) << "as it is written";
}

TEST(ThreeInABeat, TellsEachOfTheSpacingsFromATriplet) {
    EXPECT_EQ(triplet.spacing(asLongLast), ThreeInABeat::LongLast);
    EXPECT_EQ(triplet.spacing({0, 0.5, 0.75}), ThreeInABeat::LongFirst);
    EXPECT_EQ(triplet.spacing({0, 0.25, 0.75}), ThreeInABeat::LongMiddle);
    EXPECT_FALSE(triplet.spacing(asTriplet));
}

// Common practice: soloists play 30 to 40 ms behind the ride.
TEST(ThreeInABeat, HoldsNoLaidBackLineForAnotherRhythm) {
    Line late = triplet;
    late.behind = 0.040_s;
    EXPECT_FALSE(late.spacing(asTriplet));
    late.written = longLast.written;
    EXPECT_EQ(late.spacing(asTriplet), ThreeInABeat::Triplet) << "late, but a triplet";
}

TEST(ThreeInABeat, SaysNothingOfWhatLiesBetweenTwoSpacings) {
    EXPECT_FALSE(triplet.spacing({0, 0.29, 0.59}));
    EXPECT_FALSE(longLast.spacing({0, 0.29, 0.59}));
}

TEST(ThreeInABeat, SaysNothingOfOtherRhythmsThanTheFour) {
    const Line dotted{{Beats(0), Beats(1, 8), Beats(3, 4)}};
    EXPECT_FALSE(dotted.spacing(asTriplet));
    EXPECT_FALSE(anyThreeInABeat(dotted.study(), dotted.study().notes));
    EXPECT_TRUE(anyThreeInABeat(triplet.study(), triplet.study().notes));
}

TEST(ThreeInABeat, SaysNothingWhereThreeEighthsAreCountedAsOne) {
    Study study = triplet.study();
    study.meter = Meter{6, 8};
    EXPECT_FALSE(anyThreeInABeat(study, study.notes));
}

TEST(ThreeInABeat, HoldsForAsLongAsTheBeatIsWrittenSo) {
    Study study = longLast.study();
    const HeardThree three{{Beats(2), Beats(9, 4), Beats(5, 2)}, ThreeInABeat::Triplet};
    EXPECT_TRUE(isWrittenSo(three, study, study.notes, study.notes[2]));
    study.notes[4].onset = Beats(2) + Beats(2, 3);
    EXPECT_FALSE(isWrittenSo(three, study, study.notes, study.notes[2]));
}

TEST(ThreeInABeat, IsMeasuredWithTheNotesOfAStudy) {
    const Study page = longLast.study();
    const auto recording = RecordingEvidence::listen(longLast.sound(asTriplet));
    const auto measured = measureNotes(page, page.notes, *recording);
    ASSERT_TRUE(measured);
    ASSERT_TRUE(measured->at(NoteId{3}).three);
    EXPECT_EQ(measured->at(NoteId{3}).three->heard, ThreeInABeat::Triplet);
    EXPECT_FALSE(measured->at(NoteId{2}).three);
}

} // namespace
} // namespace earwright
