#include "core/study/PlayedTime.h"
#include "core/study/RhythmReader.h"
#include "tests/core/study/SampleStudy.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numeric>
#include <random>

namespace earwright {
namespace {

using Line = std::vector<ProposedNote>;

/// Each note lasting to the next; the last one as long as told.
Line lineOf(const std::vector<Beats>& onsets, const Beats& last = Beats(1, 2)) {
    Line line;
    for (std::size_t i = 0; i < onsets.size(); ++i)
        line.push_back({onsets[i], i + 1 < onsets.size() ? onsets[i + 1] - onsets[i] : last, 60});
    return line;
}

/// As somebody would tap it: each onset off by a normal deviation, held for most of its length.
std::vector<FreeNote> tapped(const Study& study, const Line& line, double deviation = 0, unsigned seed = 1) {
    std::mt19937 random(seed);
    std::normal_distribution<double> off(0, deviation > 0 ? deviation : 1);
    std::vector<FreeNote> notes;
    for (const ProposedNote& note : line) {
        const Range<Seconds> played = playedTime(study, Range{note.onset, note.onset + note.length});
        const Seconds shift{deviation > 0 ? off(random) : 0};
        notes.push_back(
            {{played.begin + shift, played.begin + shift + Seconds(played.length().value * 0.9)}, note.midi});
    }
    return notes;
}

struct RhythmProposals : testing::Test {
    Study study = eightBarsAt120();
    Line first(const std::vector<FreeNote>& notes) const {
        const auto proposals = proposeRhythms(study, notes);
        return proposals.empty() ? Line{} : proposals.front().notes;
    }
};

TEST_F(RhythmProposals, OfNothingAreNone) {
    EXPECT_TRUE(proposeRhythms(study, {}).empty());
}

// At 120 the lines of five and of six in a beat are 17 ms and more apart: told from each other where onsets
// are good to 10 ms, and both offered where they are not.
TEST_F(RhythmProposals, WriteWhatWasPlayedExactlyAsItWas) {
    for (std::int64_t parts = 1; parts <= 8; ++parts) {
        study.divisions[Beats(4)] = *divisionInto(parts);
        std::vector<Beats> onsets;
        for (std::int64_t i = 0; i <= parts; ++i)
            onsets.push_back(Beats(4) + Beats(i, parts));
        const Line line = lineOf(onsets);
        const auto notes = tapped(study, line);
        EXPECT_EQ(proposeRhythms(study, notes, RhythmWishes{Seconds(0.01), Seconds(0.025), 1}).front().notes,
                  line)
            << parts << " in a beat";
        const auto proposals = proposeRhythms(study, notes);
        EXPECT_TRUE(std::any_of(proposals.begin(), proposals.end(),
                                [&](const RhythmProposal& each) { return each.notes == line; }))
            << parts << " in a beat";
    }
}

TEST_F(RhythmProposals, AreRankedAndDifferFromEachOther) {
    const auto proposals = proposeRhythms(study, tapped(study, lineOf({Beats(4), Beats(14, 3), Beats(5)})));
    ASSERT_GE(proposals.size(), 3u);
    EXPECT_LE(proposals.size(), RhythmWishes{}.mostProposals);
    for (std::size_t i = 1; i < proposals.size(); ++i) {
        EXPECT_GE(proposals[i].cost, proposals[i - 1].cost);
        for (std::size_t k = 0; k < i; ++k)
            EXPECT_NE(proposals[i].notes, proposals[k].notes);
    }
}

// Halfway between an even eighth (4½) and the last of a triplet (4⅔) either may be meant: both are offered.
TEST_F(RhythmProposals, OfferBothReadingsOfWhatLiesBetween) {
    std::vector<FreeNote> notes = tapped(study, lineOf({Beats(4), Beats(9, 2), Beats(5)}));
    notes[1].held.begin = study.beatMap.secondsAt(4 + 7.0 / 12);
    const auto proposals = proposeRhythms(study, notes);
    const auto has = [&](const Beats& onset) {
        return std::any_of(proposals.begin(), proposals.end(),
                           [&](const RhythmProposal& each) { return each.notes[1].onset == onset; });
    };
    EXPECT_TRUE(has(Beats(9, 2)));
    EXPECT_TRUE(has(Beats(14, 3)));
}

// Swing 2:1 plays the second eighth at two thirds of the beat, where the last of a triplet is too: the page
// says eighths (common practice).
TEST_F(RhythmProposals, WriteSwungEighthsEven) {
    const Line even = lineOf({Beats(4), Beats(9, 2), Beats(5), Beats(11, 2), Beats(6)});
    study = setSwing(study, Beats(0), Swing{2, 8});
    EXPECT_EQ(first(tapped(study, even)), even);
    const std::vector<FreeNote> swung = tapped(study, even);
    study = setSwing(study, Beats(0), std::nullopt);
    EXPECT_EQ(first(swung)[1].onset, Beats(14, 3)) << "without the swing they are triplets";
}

// Two sixteenths and an eighth would be played at the very places of a triplet there.
TEST_F(RhythmProposals, ReadThreeNotesOfASwungBeatAsATriplet) {
    study = setSwing(study, Beats(0), Swing{2, 8});
    const Line triplet = lineOf({Beats(4), Beats(13, 3), Beats(14, 3), Beats(5)});
    Study divided = setDivision(study, 4, BeatDivision::Three);
    const auto notes = tapped(divided, triplet);
    const auto proposals = proposeRhythms(study, notes);
    ASSERT_GE(proposals.size(), 2u);
    EXPECT_EQ(proposals[0].notes, triplet);
    EXPECT_TRUE(std::any_of(proposals.begin(), proposals.end(), [](const RhythmProposal& each) {
        return each.notes[1].onset == Beats(17, 4) && each.notes[2].onset == Beats(9, 2);
    }));
}

TEST_F(RhythmProposals, TakeANoteThatCameEarlyAsTheNextBeat) {
    std::vector<FreeNote> notes = tapped(study, lineOf({Beats(4), Beats(5), Beats(6)}));
    notes[1].held.begin = notes[1].held.begin - Seconds(0.025);
    EXPECT_EQ(first(notes)[1].onset, Beats(5));
}

TEST_F(RhythmProposals, NeverPutTwoNotesOnOnePlace) {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> gap(0.04, 0.4);
    for (int round = 0; round < 60; ++round) {
        std::vector<FreeNote> notes;
        double at = 1.9;
        for (int i = 0; i < 14; ++i, at += gap(random))
            notes.push_back({{Seconds(at), Seconds(at + 0.03)}, 60});
        for (const RhythmProposal& proposal : proposeRhythms(study, notes)) {
            ASSERT_EQ(proposal.notes.size(), notes.size());
            for (std::size_t i = 1; i < notes.size(); ++i) {
                EXPECT_GT(proposal.notes[i].onset, proposal.notes[i - 1].onset);
                EXPECT_GT(proposal.notes[i - 1].length, Beats(0));
                EXPECT_LE(proposal.notes[i - 1].onset + proposal.notes[i - 1].length,
                          proposal.notes[i].onset);
            }
        }
    }
}

TEST_F(RhythmProposals, JoinADoubleStop) {
    std::vector<FreeNote> notes = tapped(study, lineOf({Beats(4), Beats(5)}));
    FreeNote upper = notes[0];
    upper.midi = 64;
    upper.held.begin += Seconds(0.02);
    notes.push_back(upper);
    const Line line = first(notes);
    ASSERT_EQ(line.size(), 3u);
    EXPECT_EQ(line[0].onset, line[1].onset);
    EXPECT_EQ(line[1].midi, 64);
}

TEST_F(RhythmProposals, RestWhereANoteWasLetGo) {
    std::vector<FreeNote> notes = tapped(study, lineOf({Beats(4), Beats(7)}));
    notes[0].held.end = study.beatMap.secondsAt(4.93);
    EXPECT_EQ(first(notes)[0].length, Beats(1));
}

TEST_F(RhythmProposals, ReachBackBeforeBarOne) {
    const Line line = lineOf({Beats(-3, 2), Beats(-1), Beats(-1, 2), Beats(0)});
    EXPECT_EQ(first(tapped(study, line)), line);
}

/// The divisions a study keeps of a proposal.
std::map<Beats, BeatDivision> keptDivisions(const Study& study, const Line& line) {
    return writeProposal(study, proposeRhythms(study, tapped(study, line)).front()).divisions;
}

// Dotted quarters are counted in 6/8 (common practice), here at 80 a minute: an eighth, the unit, lasts 250
// ms.
TEST_F(RhythmProposals, ReadTheCountedBeatsOfSixEight) {
    study.meter = Meter{6, 8};
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(24), Seconds(6)}});
    const Line eighths = lineOf({Beats(6), Beats(7), Beats(8), Beats(9), Beats(11), Beats(12)}, Beats(1));
    EXPECT_EQ(first(tapped(study, eighths)), eighths);
    EXPECT_TRUE(keptDivisions(study, eighths).empty()) << "a beat is in three there anyway";
    const Line sixteenths = lineOf(
        {Beats(6), Beats(13, 2), Beats(7), Beats(8), Beats(9), Beats(10), Beats(21, 2), Beats(11)}, Beats(1));
    EXPECT_EQ(first(tapped(study, sixteenths)), sixteenths);
    EXPECT_EQ(keptDivisions(study, sixteenths),
              (std::map<Beats, BeatDivision>{{Beats(6), BeatDivision::Six}, {Beats(9), BeatDivision::Six}}));
    // What swings are pairs of eighths, and here there are none.
    study = setSwing(study, Beats(0), Swing{2, 8});
    EXPECT_EQ(first(tapped(study, sixteenths)), sixteenths);
    const Line duplet = lineOf({Beats(6), Beats(15, 2), Beats(9)}, Beats(1));
    EXPECT_EQ(first(tapped(setDivision(study, 6, BeatDivision::Two), duplet)), duplet);
}

// Places are counted in quarters throughout, and 6/8 is counted in one and a half of them.
TEST_F(RhythmProposals, ReadABarOfSixEightAmongFourFour) {
    study = meterFrom(meterFrom(study, 2, Meter{6, 8}), 3, Meter{4, 4});
    const Line line = lineOf({Beats(3), Beats(7, 2), Beats(4), Beats(9, 2), Beats(5), Beats(11, 2),
                              Beats(23, 4), Beats(6), Beats(13, 2), Beats(7), Beats(15, 2), Beats(8)});
    EXPECT_EQ(first(tapped(study, line)), line);
    EXPECT_EQ(keptDivisions(study, line), (std::map<Beats, BeatDivision>{{Beats(11, 2), BeatDivision::Six}}));
}

// Bar 3 begins on half a quarter behind a bar of 7/8: its beats lie between whole numbers.
TEST_F(RhythmProposals, ReadBeatsThatBeginOffWholeNumbers) {
    study = meterFrom(meterFrom(study, 2, Meter{7, 8}), 3, Meter{4, 4});
    const Line line = lineOf(
        {Beats(15, 2), Beats(47, 6), Beats(49, 6), Beats(17, 2), Beats(9), Beats(19, 2), Beats(21, 2)});
    EXPECT_EQ(first(tapped(study, line)), line);
    EXPECT_EQ(keptDivisions(study, line),
              (std::map<Beats, BeatDivision>{{Beats(15, 2), BeatDivision::Three}}));
}

TEST_F(RhythmProposals, ReadABarOfThreeFourBehindFourFour) {
    study = meterFrom(meterFrom(study, 2, Meter{3, 4}), 3, Meter{4, 4});
    const Line line = lineOf({Beats(6), Beats(13, 2), Beats(7), Beats(22, 3), Beats(23, 3), Beats(8)});
    EXPECT_EQ(first(tapped(study, line)), line);
    EXPECT_EQ(keptDivisions(study, line), (std::map<Beats, BeatDivision>{{Beats(7), BeatDivision::Three}}));
}

const Line overTwo = lineOf({Beats(4), Beats(14, 3), Beats(16, 3), Beats(6)}, Beats(2));

// A quarter-note triplet: each note two thirds of a beat (common practice).
TEST_F(RhythmProposals, WriteThreeNotesOverTwoBeats) {
    for (const double seconds : {24.0, 16.0, 13.0}) {
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(32), Seconds(seconds)}});
        EXPECT_EQ(first(tapped(study, overTwo)), overTwo) << 32 * 60 / seconds << " beats a minute";
        EXPECT_EQ(first(tapped(setSwing(study, Beats(0), Swing{2, 8}), overTwo)), overTwo);
    }
    study = meterFrom(study, 2, Meter{3, 4});
    const Line inThree = lineOf({Beats(4), Beats(5), Beats(17, 3), Beats(19, 3), Beats(7)}, Beats(2));
    EXPECT_EQ(first(tapped(study, inThree)), inThree);
}

// Where its middle would hide the third beat of the bar, nobody writes one (common practice): the same notes
// a beat later ask to be believed more.
TEST_F(RhythmProposals, HoldThreeNotesOverTwoBeatsLikelierInTheHalvesOfABar) {
    const Line overTheMiddle = lineOf({Beats(5), Beats(17, 3), Beats(19, 3), Beats(7)}, Beats(1));
    const auto inHalf = proposeRhythms(study, tapped(study, overTwo));
    const auto across = proposeRhythms(study, tapped(study, overTheMiddle));
    EXPECT_GT(across.front().cost, inHalf.front().cost + 1.5);
}

// At 180 beats a minute an eighth is 56 ms from the nearest of three over two beats. A hand that scatters by
// 10 ms is believed to scatter by more, as hands do: read beat by beat, each half of a triplet unfinished, 13
// of these lines would be right.
TEST_F(RhythmProposals, ReadTappedTripletsOverTwoBeatsAmongEighths) {
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(32), Seconds(32 / 3.0)}});
    std::mt19937 random(5);
    int right = 0;
    for (unsigned round = 0; round < 60; ++round) {
        std::vector<Beats> onsets;
        for (std::int64_t bar = 4; bar < 20; bar += 4) {
            const bool isTriplet = random() % 2 == 0;
            for (std::int64_t i = 0; i < (isTriplet ? 6 : 8); ++i)
                onsets.push_back(Beats(bar) + (isTriplet ? Beats(2 * i, 3) : Beats(i, 2)));
        }
        const Line read = first(tapped(study, lineOf(onsets), 0.01, round + 1));
        bool same = read.size() == onsets.size();
        for (std::size_t i = 0; same && i < onsets.size(); ++i)
            same = read[i].onset == onsets[i];
        right += same ? 1 : 0;
    }
    RecordProperty("lines_right", right);
    EXPECT_GE(right, 45) << "of 60";
}

const Line overFour = lineOf({Beats(4), Beats(16, 3), Beats(20, 3), Beats(8)}, Beats(2));
const Line fiveOverTwo =
    lineOf({Beats(4), Beats(22, 5), Beats(24, 5), Beats(26, 5), Beats(28, 5), Beats(6)}, Beats(2));

// A half-note triplet: each note four thirds of a beat (common practice).
TEST_F(RhythmProposals, WriteThreeNotesOverFourBeats) {
    for (const double seconds : {24.0, 16.0, 13.0, 11.0}) {
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(32), Seconds(seconds)}});
        EXPECT_EQ(first(tapped(study, overFour)), overFour) << 32 * 60 / seconds << " beats a minute";
    }
}

TEST_F(RhythmProposals, WriteFiveNotesOverTwoBeats) {
    for (const double seconds : {24.0, 16.0}) {
        study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(32), Seconds(seconds)}});
        EXPECT_EQ(first(tapped(study, fiveOverTwo)), fiveOverTwo) << 32 * 60 / seconds << " beats a minute";
    }
}

// A note in the last beat is none of three over four: its thirds are believed less there.
TEST_F(RhythmProposals, HoldThreeNotesOverFourBeatsLikelierWhereTheyAreAlone) {
    const Line withAnother = lineOf({Beats(4), Beats(16, 3), Beats(20, 3), Beats(7), Beats(8)}, Beats(2));
    const auto alone = proposeRhythms(study, tapped(study, overFour));
    const auto crowded = proposeRhythms(study, tapped(study, withAnother));
    EXPECT_GT(crowded.front().cost, alone.front().cost + 0.5);
}

/// Lines as they are played: beats of eighths, triplets, quarters, sixteenths and rests in turn.
Line inventedLine(std::mt19937& random) {
    static const std::vector<std::vector<Beats>> figures{{Beats(0), Beats(1, 2)},
                                                         {Beats(0), Beats(1, 2)},
                                                         {Beats(0), Beats(1, 3), Beats(2, 3)},
                                                         {Beats(0)},
                                                         {Beats(1, 2)},
                                                         {Beats(0), Beats(1, 4), Beats(1, 2), Beats(3, 4)}};
    std::vector<Beats> onsets;
    for (int beat = 4; beat < 16; ++beat)
        for (const Beats& place : figures[random() % figures.size()])
            onsets.push_back(Beats(beat) + place);
    return lineOf(onsets);
}

// Taps with a standard deviation of 20 ms at 120 beats a minute. A sixteenth is 125 ms there and the nearest
// wrong line of a triplet 42 ms away, two deviations: a few beats in a hundred can't be told apart by anyone.
TEST_F(RhythmProposals, ReadTappedLines) {
    std::mt19937 random(7);
    int right = 0;
    int beats = 0;
    for (unsigned round = 0; round < 40; ++round) {
        const Line line = inventedLine(random);
        const Line read = first(tapped(study, line, 0.02, round + 1));
        ASSERT_EQ(read.size(), line.size());
        for (int beat = 4; beat < 16; ++beat) {
            bool same = true;
            for (std::size_t i = 0; i < line.size(); ++i)
                if (line[i].onset.floor() == beat) same = same && read[i].onset == line[i].onset;
            right += same ? 1 : 0;
            ++beats;
        }
    }
    RecordProperty("beats_right", right);
    EXPECT_GT(right, beats * 93 / 100) << right << " of " << beats;
}

// All of a line 45 ms late at 120 beats a minute is over a third of an eighth, and nearer to the lines of
// sixteenths and triplets than to its own.
TEST_F(RhythmProposals, TakeOffHowLateThePlayerIsThroughout) {
    const Line line = lineOf({Beats(4), Beats(9, 2), Beats(5), Beats(16, 3), Beats(17, 3), Beats(6), Beats(7),
                              Beats(15, 2), Beats(8), Beats(17, 2), Beats(9)});
    for (const double late : {-0.045, -0.02, 0.0, 0.02, 0.045}) {
        std::vector<FreeNote> notes = tapped(study, line, 0.012);
        for (FreeNote& note : notes)
            note.held = {note.held.begin + Seconds(late), note.held.end + Seconds(late)};
        const RhythmReader reader(study, notes);
        EXPECT_NEAR(reader.lag().value, late, 0.012) << "of 11 onsets that scatter by 12 ms";
        EXPECT_EQ(reader.proposals().front().notes, line) << late;
    }
}

// Two lines of the same rhythm: what is meant is believed to a finer degree of a steady hand.
TEST_F(RhythmProposals, HearHowSteadyTheHandIs) {
    std::mt19937 random(3);
    for (const double deviation : {0.008, 0.02}) {
        double sum = 0;
        for (unsigned round = 0; round < 20; ++round)
            sum +=
                RhythmReader(study, tapped(study, inventedLine(random), deviation, round + 1)).spread().value;
        // Twelve onsets' worth of trust in 30 ms stays in it: of some 27, about a third of the square.
        const double expected = std::sqrt((27 * deviation * deviation + 12 * 0.0009) / 39);
        EXPECT_NEAR(sum / 20, expected, 0.003) << deviation;
    }
}

TEST_F(RhythmProposals, AreReadAnewAroundABeatThatTheUserDecided) {
    std::vector<FreeNote> notes = tapped(study, lineOf({Beats(4), Beats(9, 2), Beats(5), Beats(6)}));
    notes[1].held.begin = study.beatMap.secondsAt(4 + 7.0 / 12);
    const RhythmReader reader(study, notes);
    ASSERT_EQ(reader.beats().size(), 3u);
    for (std::size_t beat = 0; beat < 3; ++beat) {
        const auto& shares = reader.shares()[beat];
        ASSERT_EQ(shares.size(), reader.beats()[beat].readings.size());
        EXPECT_TRUE(std::is_sorted(shares.rbegin(), shares.rend())) << "the likeliest reading first";
        EXPECT_NEAR(std::accumulate(shares.begin(), shares.end(), 0.0), 1, 1e-9);
        for (std::size_t reading = 0; reading < shares.size(); ++reading) {
            const auto proposal = reader.with({{beat, reading}});
            ASSERT_TRUE(proposal || reading > 0) << "the likeliest reading of beat " << beat;
            if (!proposal) continue;
            EXPECT_EQ(proposal->taken[beat], reading);
            EXPECT_EQ(proposal->divisions.at(reader.beats()[beat].beat.begin),
                      reader.beats()[beat].readings[reading].figure.division);
        }
    }
    const auto free = reader.with({});
    ASSERT_TRUE(free);
    EXPECT_EQ(free->notes, reader.proposals().front().notes);
}

TEST_F(RhythmProposals, AreWrittenInOneEditThatMakesRoom) {
    study = addNote(study, {Pitch{72, {}}, Beats(9, 2), Beats(1, 2)}).study;
    study = addNote(study, {Pitch{74, {}}, Beats(8), Beats(1)}).study;
    const Line line = lineOf({Beats(4), Beats(13, 3), Beats(14, 3), Beats(5)});
    const auto proposals = proposeRhythms(study, tapped(study, line));
    const Study edited = writeProposal(study, proposals.front());
    ASSERT_EQ(edited.notes.size(), 5u);
    EXPECT_EQ(edited.divisionOf(4), BeatDivision::Three);
    EXPECT_EQ(edited.notes.back().pitch.midi, 74) << "what lies behind stays";
    EXPECT_EQ(edited.notes[1].onset, Beats(13, 3));
}

} // namespace
} // namespace earwright
