#include "core/check/ChordCheck.h"

#include "core/check/StudyChords.h"
#include "core/music/ChordChart.h"
#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr int c = 0, e = 4, aFlat = 8, bFlat = 10;

/// A bar of two seconds from 1 s on: a bass that plays root, fifth and octave, chords on two beats, and a
/// line.
struct PlayedBar {
    AnalysisSound sound{silence(Seconds(4.5)), {}};
    Range<Seconds> bar{1.0_s, 3.0_s};
    std::vector<LineTone> line;

    PlayedBar(std::vector<int> voicing, std::vector<int> bass) {
        for (std::size_t i = 0; i < bass.size(); ++i) {
            const Seconds at = 1.0_s + 2.0_s * (static_cast<double>(i) / static_cast<double>(bass.size()));
            addTone(sound.left, {at, at + 0.45_s}, bass[i], 0.2f);
        }
        for (const Seconds at : {1.0_s, 2.0_s})
            for (const int midi : voicing)
                addTone(sound.left, {at, at + 0.9_s}, midi, 0.08f);
    }
    PlayedBar& with(Range<Seconds> range, int midi) {
        addTone(sound.left, range, midi, 0.25f);
        line.push_back({range, midi});
        return *this;
    }
    ChordSound heard() const { return chordSound(StereoViews(sound, bar), 0, bar, line); }
    ChordAnswer answer(const char* symbol) const {
        return judgeChord(*parseChordSymbol(symbol).chord, heard());
    }
};

/// E, B flat, D over C: a rootless voicing with its bass.
PlayedBar c9() {
    return {{52, 58, 62, 67}, {36, 43, 48, 43}};
}

bool holds(const std::vector<int>& names, int name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

TEST(ChordSound, HearsCompingAndBassApart) {
    const ChordSound sound = c9().heard();
    // Beside the strongest, the fifth, which the bass plays too.
    for (const int name : {e, bFlat, 2, 7})
        EXPECT_GT(sound.comping[static_cast<std::size_t>(name)], 0.15) << name;
    for (const int name : {1, 3, 6, 9, 11})
        EXPECT_LT(sound.comping[static_cast<std::size_t>(name)], 0.075) << name;
    EXPECT_EQ(std::max_element(sound.firstBass.begin(), sound.firstBass.end()) - sound.firstBass.begin(), c);
}

TEST(ChordSound, LeavesTheLineOutOfAccount) {
    // A line that holds A flat through the bar, louder than the chord.
    PlayedBar bar = c9();
    addTone(bar.sound.left, bar.bar, 68, 0.25f);
    const double taken = bar.heard().comping[aFlat];
    bar.line.push_back({bar.bar, 68});
    const double left = bar.heard().comping[aFlat];
    EXPECT_GT(taken, 0.5);
    EXPECT_LT(left, 0.2);
}

TEST(ChordCheck, SupportsAChordThatIsPlayedWithoutItsRootOverItsBass) {
    EXPECT_EQ(c9().answer("C7").verdict, Verdict::Supported);
    EXPECT_EQ(c9().answer("C9").verdict, Verdict::Supported);
    // A triad says nothing of the seventh.
    EXPECT_EQ(c9().answer("C").verdict, Verdict::Supported);
    EXPECT_TRUE(c9().answer("C7").heardAgainst.empty());
}

TEST(ChordCheck, ContradictsAnotherRootAndTellsWhatSpeaksAgainstIt) {
    const ChordAnswer answer = c9().answer("A♭maj7");
    EXPECT_EQ(answer.verdict, Verdict::Contradicted);
    EXPECT_LT(answer.score, 0.01);
    EXPECT_TRUE(holds(answer.heardAgainst, 2) || holds(answer.heardAgainst, e));
    EXPECT_EQ(answer.bass.played, c);
}

TEST(ChordCheck, TellsWhatIsHeardOfTheChordAndWhetherTheBassPlaysIt) {
    const ChordAnswer answer = c9().answer("C7");
    // From the root up; the perfect fifth is in the voicing, and the bass begins on the root.
    EXPECT_TRUE(holds(answer.heard, e) && holds(answer.heard, bFlat));
    EXPECT_TRUE(std::is_sorted(answer.heard.begin(), answer.heard.end()));
    EXPECT_FALSE(holds(answer.heard, 11));
    EXPECT_EQ(answer.bass.played, c);
    EXPECT_EQ(answer.bass.verdict, Verdict::Supported);
}

TEST(ChordCheck, DoesNotSupportTheOtherThirdOrTheOtherSeventh) {
    const ChordAnswer minor = c9().answer("Cm7");
    EXPECT_NE(minor.verdict, Verdict::Supported);
    EXPECT_TRUE(holds(minor.heardAgainst, e));
    EXPECT_TRUE(holds(minor.missing, 3));
    const ChordAnswer major = c9().answer("Cmaj7");
    EXPECT_NE(major.verdict, Verdict::Supported);
    EXPECT_TRUE(holds(major.heardAgainst, bFlat));
    EXPECT_TRUE(holds(major.missing, 11));
}

TEST(ChordCheck, ContradictsTheOtherSeventhWhereTheWholeChordIsPlayed) {
    // Four notes of a guitar chord with its root below: C E B flat G, and C E B G.
    const PlayedBar seventh({52, 58, 60, 67}, {36, 43, 48, 43}), major({52, 59, 60, 67}, {36, 43, 48, 43});
    EXPECT_EQ(seventh.answer("C7").verdict, Verdict::Supported);
    EXPECT_EQ(seventh.answer("Cmaj7").verdict, Verdict::Contradicted);
    EXPECT_EQ(major.answer("Cmaj7").verdict, Verdict::Supported);
    EXPECT_EQ(major.answer("C7").verdict, Verdict::Contradicted);
    // A triad says nothing of the seventh.
    EXPECT_EQ(major.answer("C").verdict, Verdict::Supported);
}

TEST(ChordCheck, TellsAMinorChordsSevenths) {
    // C E flat B G, and C E flat B flat G.
    const PlayedBar major({51, 59, 60, 67}, {36, 43, 48, 43}), minor({51, 58, 60, 67}, {36, 43, 48, 43});
    EXPECT_EQ(major.answer("Cm(maj7)").verdict, Verdict::Supported);
    EXPECT_NE(major.answer("Cm7").verdict, Verdict::Supported);
    EXPECT_EQ(minor.answer("Cm7").verdict, Verdict::Supported);
    EXPECT_NE(minor.answer("Cm(maj7)").verdict, Verdict::Supported);
    EXPECT_EQ(minor.answer("Cm").verdict, Verdict::Supported);
}

TEST(ChordCheck, LeavesSilenceUnclear) {
    const ChordAnswer answer = judgeChord(*parseChordSymbol("F7").chord, ChordSound{});
    EXPECT_EQ(answer.verdict, Verdict::Unclear);
    EXPECT_EQ(answer.bass.verdict, Verdict::Unclear);
    EXPECT_EQ(answer.bass.played, std::nullopt);
}

TEST(ChordCheck, JudgesAChordOverAnotherBassByItsChord) {
    // F major seventh, F A C E, over a bass that stays on G.
    const PlayedBar bar({53, 57, 60, 64}, {43, 43, 31, 43});
    const ChordAnswer written = bar.answer("Fmaj7/G");
    EXPECT_NE(written.verdict, Verdict::Contradicted);
    EXPECT_GT(written.score, bar.answer("Fm7/G").score);
    EXPECT_GT(written.score, bar.answer("Dbmaj7/G").score);
    EXPECT_EQ(bar.answer("Dbmaj7/G").verdict, Verdict::Contradicted);
    EXPECT_EQ(written.bass.verdict, Verdict::Supported);
}

TEST(ChordCheck, IsContradictedAsAWholeWhereItsBassIs) {
    ChordAnswer answer;
    answer.verdict = Verdict::Supported;
    EXPECT_EQ(verdictOf(answer), Verdict::Supported);
    answer.bass.verdict = Verdict::Contradicted;
    EXPECT_EQ(verdictOf(answer), Verdict::Contradicted);
    answer = {};
    answer.bass.verdict = Verdict::Supported;
    EXPECT_EQ(verdictOf(answer), Verdict::Unclear);
}

TEST(ChordCheck, AnswersForEachReadableChordOfAStudy) {
    PlayedBar bar = c9().with({1.5_s, 1.9_s}, 76);
    Study study;
    study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 3.0_s}});
    study.notes = {{NoteId{1}, Beats(1), Beats(1), Pitch{76, {}}, 0.6, {}}};
    study.chart.overrides[1] = parseBars("C7", study.meter).front();
    const auto recording = RecordingEvidence::listen(bar.sound);
    const auto chords = checkChords(study, {0.0_s, 4.0_s}, *recording);
    ASSERT_TRUE(chords);
    ASSERT_EQ(chords->size(), 1u);
    EXPECT_EQ(chords->front().bar, 1);
    EXPECT_EQ(chords->front().answer.verdict, Verdict::Supported);
    study.chart.overrides[1] = parseBars("what?", study.meter).front();
    EXPECT_TRUE(checkChords(study, {0.0_s, 4.0_s}, *recording)->empty());
    study.beatMap = {};
    EXPECT_FALSE(checkChords(study, {0.0_s, 4.0_s}, *recording).ok());
}

TEST(ChordAnswers, StandUntilTheirSymbolTheirPlaceOrTheirTimeChanges) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 3.0_s}, {Beats(8), 5.0_s}});
    const auto bars = parseBars("C7 | F7", study.meter);
    study.chart.overrides[1] = bars[0];
    study.chart.overrides[2] = bars[1];
    const std::vector<CheckedChord> answered{{1, Beats(0), parseChordSymbol("C7"), {1.0_s, 3.0_s}, {}},
                                             {2, Beats(0), parseChordSymbol("F7"), {3.0_s, 5.0_s}, {}}};
    EXPECT_EQ(chordsThatStand(study, answered), answered);
    EXPECT_EQ(answerAt(answered, answered.back().range.begin), &answered.back());
    EXPECT_EQ(answerAt(answered, Seconds(-1)), nullptr);
    Study changed = study;
    changed.notes = {{NoteId{1}, Beats(1), Beats(1), Pitch{76, {}}, 0.6, {}}};
    EXPECT_EQ(chordsThatStand(changed, answered), answered);
    const auto first = std::vector{answered.front()};
    changed.chart.overrides[2] = parseBars("F9", study.meter).front();
    EXPECT_EQ(chordsThatStand(changed, answered), first);
    changed = study;
    changed.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 3.0_s}, {Beats(8), 5.1_s}});
    EXPECT_EQ(chordsThatStand(changed, answered), first);
    changed = study;
    changed.meter = Meter{3, 4};
    EXPECT_TRUE(chordsThatStand(changed, answered).empty());
    changed.beatMap = {};
    EXPECT_TRUE(chordsThatStand(changed, answered).empty());
}

TEST(ChordCheck, ListensForTheBassWhereTheStudySaysItIs) {
    // The bass walks on the right; on the left a piano's left hand holds a louder low F sharp.
    PlayedBar bar({52, 58, 62, 67}, {});
    bar.sound.right = silence(4.5_s);
    for (int beat = 0; beat < 4; ++beat)
        addTone(bar.sound.right, {1.0_s + 0.5_s * beat, 1.45_s + 0.5_s * beat}, beat % 2 == 0 ? 36 : 43,
                0.15f);
    addTone(bar.sound.left, bar.bar, 42, 0.3f);
    Study study;
    study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 3.0_s}});
    study.chart.overrides[1] = parseBars("C7", study.meter).front();
    const auto recording = RecordingEvidence::listen(bar.sound);
    const auto played = [&](StereoPlace place) {
        study.players.bass = place;
        return checkChords(study, {0.0_s, 4.0_s}, *recording)->at(0).answer.bass.played;
    };
    EXPECT_EQ(played(StereoPlace::Unknown), 6);
    EXPECT_EQ(played(StereoPlace::Left), 6);
    EXPECT_EQ(played(StereoPlace::Right), c);
}

TEST(ChordCheck, ListensToAMonoRecordingAsAWholeWhereverTheBassIsSaidToBe) {
    PlayedBar bar = c9();
    Study study;
    study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 3.0_s}});
    study.chart.overrides[1] = parseBars("C7", study.meter).front();
    const auto recording = RecordingEvidence::listen(bar.sound);
    const auto unknown = checkChords(study, {0.0_s, 4.0_s}, *recording);
    study.players.bass = StereoPlace::Right;
    EXPECT_EQ(*checkChords(study, {0.0_s, 4.0_s}, *recording), *unknown);
}

} // namespace
} // namespace earwright
