#include "core/playback/TimedNotes.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// 60 beats a minute from one second on, at 1000 frames a second: beat b lies at frame 1000 + 1000 b.
Study studyWith(Phrasing phrasing, double loudness = 0.6) {
    Study study;
    study.recording.rate = SampleRate{1000};
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(5)}});
    study.notes = {{NoteId{1}, Beats(1, 3), Beats(1), Pitch{67, {}}, loudness, std::move(phrasing)}};
    return study;
}

TimedNote only(const Study& study) {
    const auto notes = timedNotes(study);
    EXPECT_EQ(notes.size(), 1u);
    return notes.at(0);
}

TEST(TimedNotes, LieWhereTheBeatsLieInTheRecording) {
    const TimedNote note = only(studyWith({}));
    EXPECT_EQ(note.onset, Frames(1333)); // 1 s and a third of a beat
    EXPECT_EQ(note.end, Frames(2333));
    EXPECT_EQ(note.midi, 67);
    EXPECT_DOUBLE_EQ(note.loudness, 0.6);
}

TEST(TimedNotes, SoundGhostsSofterAndAccentsLouderThanPlainNotes) {
    Phrasing ghost;
    ghost.ghosted = true;
    Phrasing accent;
    accent.accented = true;
    EXPECT_LT(only(studyWith(ghost)).loudness, 0.5 * 0.6);
    EXPECT_GT(only(studyWith(accent)).loudness, 1.2 * 0.6);
    EXPECT_DOUBLE_EQ(only(studyWith(accent, 0.95)).loudness, 1.0);
    EXPECT_DOUBLE_EQ(only(studyWith(ghost)).loudness, studyWith(ghost).notes[0].soundingLoudness());
}

TEST(TimedNotes, CarryPhrasingAlong) {
    Phrasing phrasing;
    phrasing.slideIn = SlideFrom::Below;
    phrasing.slideOut = SlideTo::Down;
    phrasing.graceNotes = {65, 66};
    phrasing.trill = 2;
    phrasing.slurred = true;
    const TimedNote note = only(studyWith(phrasing));
    EXPECT_LT(note.slideInSemitones, 0);
    EXPECT_LT(note.slideOutSemitones, 0);
    EXPECT_EQ(note.graceMidi, (std::vector{65, 66}));
    EXPECT_EQ(note.trillSemitones, 2);
    EXPECT_TRUE(note.slurred);
}

TEST(TimedNotes, AreNoneBeforeBarsAreMarked) {
    Study study = studyWith({});
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}});
    EXPECT_TRUE(timedNotes(study).empty());
}

} // namespace
} // namespace earwright
