#include "core/check/Feel.h"

#include "core/check/StudyPlaying.h"
#include "core/study/PlayedTime.h"
#include "tests/core/listening/SyntheticSound.h"
#include "tests/core/study/SampleStudy.h"

#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

/// A line of eighths, written evenly, from bar 1 at 1 s on.
struct SwungLine {
    double beatsPerMinute;
    /// How it is played.
    double swing = 1;
    Seconds behind{0};
    int eighths = 25;
    /// Each onset is off by this, two late and two early in turn.
    Seconds loose{0};

    Seconds beat() const { return Seconds(60 / beatsPerMinute); }

    Study study() const {
        Study study;
        study.beatMap = BeatMap({{Beats(0), 1.0_s}, {Beats(4), 1.0_s + beat() * 4}});
        const std::vector<int> line{60, 62, 63, 65, 67, 68, 70, 68, 67, 65, 63, 62};
        for (int i = 0; i < eighths; ++i) {
            Note note;
            note.id = NoteId{static_cast<std::uint64_t>(i) + 1};
            note.onset = Beats(i, 2);
            note.length = Beats(1, 2);
            note.pitch.midi = line[static_cast<std::size_t>(i) % line.size()];
            study.notes.push_back(note);
        }
        return study;
    }

    Seconds onset(int eighth) const {
        const double share = eighth % 2 == 0 ? 0 : swing / (1 + swing);
        const double pattern[] = {1, 1, -1, -1};
        return 1.0_s + beat() * (eighth / 2 + share) + behind + loose * pattern[eighth % 4];
    }

    AnalysisSound sound() const {
        AnalysisSound sound{silence(onset(eighths) + 1.0_s), {}};
        const Study written = study();
        for (int i = 0; i < eighths; ++i)
            addTone(sound.left, {onset(i), onset(i + 1) - 0.01_s},
                    written.notes[static_cast<std::size_t>(i)].pitch.midi);
        return sound;
    }

    Feel heard() const {
        const Study written = study();
        const auto recording = RecordingEvidence::listen(sound());
        const auto played = measurePlaying(written, written.notes, *recording);
        return feelOf(written, written.notes, *played);
    }
};

TEST(Feel, FindsTheSwingOfALineFromSlowToFastThoughItIsWrittenEvenly) {
    // Friberg & Sundström 2002: ride ratios from about 3.5:1 at slow tempos to 1:1 at fast ones, the short
    // eighth near 100 ms from medium tempo up; soloists swing less. Onsets are measured in steps of 2.5 ms:
    // one step either way in a short eighth of 100 ms is 5 % of the ratio.
    struct Case {
        double beatsPerMinute, ratio;
    };
    for (const auto& [tempo, ratio] : {Case{100, 3.5},
                                       {120, 3.0},
                                       {150, 2.4},
                                       {200, 1.8},
                                       {240, 1.3},
                                       {280, 1.0},
                                       {120, 1.0},
                                       {160, 1.5}}) {
        const Feel feel = SwungLine{tempo, ratio}.heard();
        ASSERT_TRUE(feel.swing) << tempo;
        EXPECT_NEAR(feel.swing->ratio, ratio, 0.06 * ratio) << tempo;
        EXPECT_NEAR(feel.swing->shortEighth.value, 60 / tempo / (1 + ratio), 0.004) << tempo;
        EXPECT_GE(feel.swing->pairs, 10) << tempo;
        // Played like clockwork.
        EXPECT_LT(feel.swing->most - feel.swing->least, 0.2 * ratio) << tempo;
    }
}

TEST(Feel, TellsAheadFromBehindWithoutTakingSwingForIt) {
    // About 30 ms behind at medium tempo is how soloists play (studies of the Weimar Jazz Database).
    for (const double ms : {-20.0, 0.0, 30.0, 45.0}) {
        const Feel feel = SwungLine{160, 1.6, Seconds(ms / 1000)}.heard();
        ASSERT_TRUE(feel.placement) << ms;
        EXPECT_NEAR(feel.placement->behind.value * 1000, ms, 5) << ms;
        EXPECT_LT(feel.placement->spread.value, 0.005) << ms;
        ASSERT_TRUE(feel.swing) << ms;
        EXPECT_NEAR(feel.swing->ratio, 1.6, 0.1) << ms;
    }
}

TEST(Feel, TellsHowLooselyALineIsPlayed) {
    // A beat lasts 428.6 ms, the first of a pair 257.1; late and early pairs take turns and shrink and grow
    // by 30 ms: shares of 0.645 and 0.561, 0.603 ± 0.044 (n − 1 of 12), ratios of 1.27 and 1.83 at its ends.
    const SwungLine loose{140, 1.5, Seconds(0), 25, 0.015_s};
    const Feel feel = loose.heard();
    ASSERT_TRUE(feel.placement && feel.swing);
    EXPECT_NEAR(feel.swing->least, 1.27, 0.08);
    EXPECT_NEAR(feel.swing->most, 1.83, 0.10);
    // Seven beats late, six early.
    EXPECT_NEAR(feel.placement->behind.value, 0.015 / 13, 0.004);
    EXPECT_NEAR(feel.placement->spread.value, 0.0156, 0.003);
}

TEST(Feel, SaysNothingOfTooFewPairsButHowManyThereWere) {
    const Feel feel = SwungLine{140, 2, Seconds(0), 6}.heard();
    EXPECT_FALSE(feel.swing);
    EXPECT_FALSE(feel.placement);
    // The third pair has no next quarter.
    EXPECT_EQ(feel.pairsHeard, 2);
    EXPECT_EQ(feel.notesHeard, 3);
}

TEST(Feel, CountsAPairOnlyWhereAllThreeOfItsNotesWereHeard) {
    SwungLine line{140, 2};
    const Study study = line.study();
    const auto recording = RecordingEvidence::listen(line.sound());
    PlayedNotes played = *measurePlaying(study, study.notes, *recording);
    const int all = feelOf(study, study.notes, played).pairsHeard;
    ASSERT_EQ(all, 12);
    // A note on the beat ends one pair and begins another; an off-beat one belongs to one.
    PlayedNotes withoutBeat = played;
    withoutBeat.erase(NoteId{9});
    EXPECT_EQ(feelOf(study, study.notes, withoutBeat).pairsHeard, all - 2);
    played.erase(NoteId{10});
    EXPECT_EQ(feelOf(study, study.notes, played).pairsHeard, all - 1);
}

TEST(Feel, LeavesNotesOutThatBeginInTwoPlaces) {
    SwungLine line{140, 2};
    Study study = line.study();
    const auto recording = RecordingEvidence::listen(line.sound());
    const PlayedNotes played = *measurePlaying(study, study.notes, *recording);
    study.notes[8].phrasing.graceNotes = {61};
    EXPECT_EQ(feelOf(study, study.notes, played).pairsHeard, 10);
    EXPECT_EQ(feelOf(study, study.notes, played).notesHeard, 12);
    study.notes[2].phrasing.slideIn = SlideFrom::Below;
    EXPECT_EQ(feelOf(study, study.notes, played).notesHeard, 11);
}

/// Heard where they are written, but for those of a line of eighths that are off its beats, of so many
/// eighths: 40 ms late.
PlayedNotes heardLateOffBeat(const Study& study, std::size_t eighthsOfABeat) {
    PlayedNotes played;
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
        const Note& note = study.notes[i];
        const Range<Seconds> written = playedTime(study, note.range());
        const Seconds late = i % eighthsOfABeat == 0 ? Seconds(0) : 0.04_s;
        played.emplace(note.id, PlayedNote{written, note.pitch.midi, written.shifted(late)});
    }
    return played;
}

// Of the three eighths of a dotted quarter two are off the beat (common practice), and none makes a pair.
TEST(Feel, TellsNoSwingWhereThreeEighthsAreCountedAsOne) {
    Study study = SwungLine{140}.study();
    study.meter = Meter{6, 8};
    for (Note& note : study.notes) {
        note.onset = note.onset * 2;
        note.length = Beats(1);
    }
    const Feel feel = feelOf(study, study.notes, heardLateOffBeat(study, 3));
    EXPECT_FALSE(feel.swing);
    EXPECT_EQ(feel.pairsHeard, 0);
    // The first of 25 eighths and every third one after it.
    ASSERT_TRUE(feel.placement);
    EXPECT_EQ(feel.placement->notes, 9);
    EXPECT_NEAR(feel.placement->behind.value, 0, 1e-9);
}

// Bar 2 has half a quarter less than it would in 4/4, so that the beats of bar 3 lie between whole numbers.
TEST(Feel, FindsTheBeatsBehindABarOfSevenEight) {
    Study study = SwungLine{140}.study();
    study = meterFrom(meterFrom(study, 2, Meter{7, 8}), 3, Meter{4, 4});
    for (Note& note : study.notes)
        note.onset += Beats(15, 2);
    const Feel feel = feelOf(study, study.notes, heardLateOffBeat(study, 2));
    ASSERT_TRUE(feel.placement && feel.swing);
    EXPECT_EQ(feel.placement->notes, 13);
    EXPECT_NEAR(feel.placement->behind.value, 0, 1e-9);
    // A quarter lasts 428.6 ms, its first eighth 214.3 and 40 more.
    EXPECT_NEAR(feel.swing->ratio, 254.3 / 174.3, 0.001);
}

TEST(Feel, LeavesPairsWithSixteenthsOut) {
    SwungLine line{140, 2};
    Study study = line.study();
    const auto recording = RecordingEvidence::listen(line.sound());
    const PlayedNotes played = *measurePlaying(study, study.notes, *recording);
    Note sixteenth = study.notes[9];
    sixteenth.id = NoteId{90};
    sixteenth.onset = Beats(17, 4);
    study.notes.insert(study.notes.begin() + 9, sixteenth);
    EXPECT_EQ(feelOf(study, study.notes, played).pairsHeard, 11);
}

TEST(StudyPlaying, LeavesNotesAsWrittenThatAreNotHeard) {
    SwungLine line{140, 2};
    Study study = line.study();
    study.notes[4].pitch.midi = 40;
    const auto recording = RecordingEvidence::listen(line.sound());
    const PlayedNotes played = *measurePlaying(study, study.notes, *recording);
    EXPECT_FALSE(played.contains(study.notes[4].id));
    EXPECT_TRUE(played.contains(study.notes[3].id));
}

TEST(StudyPlaying, HoldsForANoteOnlyAsLongAsItIsWrittenSo) {
    SwungLine line{140, 2};
    Study study = line.study();
    const auto recording = RecordingEvidence::listen(line.sound());
    const PlayedNotes played = *measurePlaying(study, study.notes, *recording);
    ASSERT_TRUE(playingOf(played, study, study.notes[3]));
    Study higher = study;
    higher.notes[3].pitch.midi += 1;
    EXPECT_FALSE(playingOf(played, higher, higher.notes[3]));
    Study shorter = study;
    shorter.notes[3].length = Beats(1, 4);
    EXPECT_FALSE(playingOf(played, shorter, shorter.notes[3]));
    Study accented = study;
    accented.notes[3].phrasing.accented = true;
    EXPECT_TRUE(playingOf(played, accented, accented.notes[3]));
}

} // namespace
} // namespace earwright
