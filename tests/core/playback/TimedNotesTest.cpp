#include "core/playback/TimedNotes.h"

#include "core/study/PlayedTime.h"

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
    EXPECT_EQ(note.stroke, Stroke::Soft) << "nothing comes before it";
}

TEST(TimedNotes, BendFromWhatIsFingered) {
    Phrasing phrasing;
    phrasing.bend = Bend{4, BendShape::UpAndDown};
    EXPECT_EQ(only(studyWith(phrasing)).bend, (std::array<double, 3>{0, 2, 0}));
    phrasing.bend = Bend{1, BendShape::PrebentHeld};
    EXPECT_EQ(only(studyWith(phrasing)).bend, (std::array<double, 3>{0.5, 0.5, 0.5}));
}

TEST(TimedNotes, SlideAllTheWayToTheNextNote) {
    Phrasing phrasing;
    phrasing.slidesToNext = true;
    Study study = studyWith(phrasing);
    EXPECT_EQ(only(study).slideOutSemitones, 0) << "there is none";
    study.notes.push_back({NoteId{2}, Beats(4, 3), Beats(1), Pitch{62, {}}, 0.6, {}});
    EXPECT_EQ(timedNotes(study).front().slideOutSemitones, -5);
    study.notes.back().onset += Beats(1);
    EXPECT_EQ(timedNotes(study).front().slideOutSemitones, 0) << "a rest between";
}

/// 60 and 67 together, then 62 and 69, then 64 alone.
Study doubleStops(Phrasing phrasing) {
    Study study = studyWith({});
    study.notes.clear();
    for (const auto& [beat, midi] : {std::pair{0, 60}, {0, 67}, {1, 62}, {1, 69}, {2, 64}})
        study.notes.push_back(
            {NoteId{study.nextId++}, Beats(beat), Beats(1), Pitch{midi, {}}, 0.6, phrasing});
    return study;
}

TEST(TimedNotes, SlideEachVoiceOfADoubleStopToItsOwnGoal) {
    Phrasing phrasing;
    phrasing.slidesToNext = true;
    std::vector<double> slides;
    for (const TimedNote& note : timedNotes(doubleStops(phrasing)))
        slides.push_back(note.slideOutSemitones);
    EXPECT_EQ(slides, (std::vector<double>{2, 2, 2, -5, 0}));
}

TEST(TimedNotes, SlurEachVoiceFromItsOwn) {
    Phrasing phrasing;
    phrasing.slurred = true;
    Study study = doubleStops(phrasing);
    study.notes.push_back({NoteId{study.nextId++}, Beats(3), Beats(1), Pitch{65, {}}, 0.6, phrasing});
    study.notes.push_back({NoteId{study.nextId++}, Beats(3), Beats(1), Pitch{72, {}}, 0.6, phrasing});
    study.notes.back().phrasing.slurBy = study.notes[2].phrasing.slurBy = SlurBy::HammerOn;
    std::vector<std::size_t> voices;
    std::vector<Stroke> strokes;
    for (const TimedNote& note : timedNotes(study)) {
        voices.push_back(note.voice);
        strokes.push_back(note.stroke);
    }
    EXPECT_EQ(voices, (std::vector<std::size_t>{0, 1, 0, 1, 0, 0, 1}));
    EXPECT_EQ(strokes, (std::vector{Stroke::Soft, Stroke::Soft, Stroke::Hammered, Stroke::Slurred,
                                    Stroke::Slurred, Stroke::Slurred, Stroke::Soft}))
        << "the last has no string to come from";
}

TEST(TimedNotes, FollowTheDynamicsUnlessTheyWereMeasured) {
    Study study = studyWith({});
    study.notes.clear();
    for (int i = 0; i < 12; ++i)
        study.notes.push_back({NoteId{study.nextId++}, Beats(i), Beats(1), Pitch{67, {}}, 0.6, {}});
    study.page.dynamics = {{Beats(0), Dynamic::pp}, {Beats(8), Dynamic::ff}};
    study.page.hairpins = {{{Beats(4), Beats(8)}, HairpinKind::Louder}};
    const auto notes = timedNotes(study);
    // pp is a MIDI velocity of 33, ff one of 112, where mf is 80 (common practice of notation programs).
    EXPECT_DOUBLE_EQ(notes[0].loudness, 0.6 * 33 / 80);
    EXPECT_DOUBLE_EQ(notes[3].loudness, notes[0].loudness);
    for (std::size_t i = 5; i <= 8; ++i)
        EXPECT_GT(notes[i].loudness, notes[i - 1].loudness + 0.1) << i;
    EXPECT_DOUBLE_EQ(notes[8].loudness, 0.6 * 112 / 80);
    EXPECT_DOUBLE_EQ(notes[11].loudness, notes[8].loudness);
    const PlayedNotes played{
        {NoteId{study.notes[0].id},
         {playedTime(study, study.notes[0].range()), 67, {Seconds(1), Seconds(2)}, 0.5}}};
    EXPECT_DOUBLE_EQ(timedNotes(study, played).front().loudness, 0.5);
}

// G in B flat major has A above and F below it; in G major A and F sharp.
TEST(TimedNotes, TurnRoundTheNeighboursOfTheKey) {
    Phrasing phrasing;
    phrasing.turn = Turn::FromAbove;
    Study study = studyWith(phrasing);
    study.page.keys = {{1, {-2, Mode::Major}}};
    EXPECT_EQ(only(study).figureSemitones, (std::vector{2, 0, -2}));
    study.page.keys = {{1, {1, Mode::Major}}};
    EXPECT_EQ(only(study).figureSemitones, (std::vector{2, 0, -1}));
    study.notes[0].phrasing = {};
    study.notes[0].phrasing.mordent = Mordent::Lower;
    EXPECT_EQ(only(study).figureSemitones, (std::vector{0, -1}));
}

TEST(TimedNotes, LastAsLongAsStaccatoAndRingingSay) {
    Phrasing phrasing;
    phrasing.staccato = true;
    EXPECT_EQ(only(studyWith(phrasing)).end, Frames(1833));
    phrasing = {};
    phrasing.letRing = true;
    EXPECT_EQ(only(studyWith(phrasing)).end, Frames(4333));
}

// A swung pair of eighths at 2 : 1 is the first and third note of a triplet.
TEST(TimedNotes, SwingEighthsAndLeaveTripletsAlone) {
    Study study = studyWith({});
    study.page.swings = {{Beats(0), Swing{2, 8}}, {Beats(3), Swing{}}};
    study.notes = {{NoteId{1}, Beats(0), Beats(1, 2), Pitch{67, {}}, 0.6, {}},
                   {NoteId{2}, Beats(1, 2), Beats(1, 2), Pitch{69, {}}, 0.6, {}},
                   {NoteId{3}, Beats(4, 3), Beats(1, 3), Pitch{67, {}}, 0.6, {}},
                   {NoteId{4}, Beats(5, 2), Beats(1, 4), Pitch{67, {}}, 0.6, {}},
                   {NoteId{5}, Beats(7, 2), Beats(1, 2), Pitch{67, {}}, 0.6, {}}};
    const auto notes = timedNotes(study);
    EXPECT_EQ(notes[0].end, Frames(1667));
    EXPECT_EQ(notes[1].onset, Frames(1667));
    EXPECT_EQ(notes[1].end, Frames(2000));
    EXPECT_EQ(notes[2].onset, Frames(2333)) << "a triplet is written out already";
    EXPECT_EQ(notes[3].onset, Frames(3667));
    EXPECT_EQ(notes[3].end, Frames(3833)) << "a sixteenth in the swung half";
    EXPECT_EQ(notes[4].onset, Frames(4500)) << "even again";
}

TEST(TimedNotes, AreNoneBeforeBarsAreMarked) {
    Study study = studyWith({});
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}});
    EXPECT_TRUE(timedNotes(study).empty());
}

/// The note of studyWith(), heard late, short and softly.
PlayedNotes heardLate() {
    const Range<Seconds> written{Seconds(1) + Seconds(1) * (1.0 / 3), Seconds(2) + Seconds(1) * (1.0 / 3)};
    return {{NoteId{1}, {written, 67, {Seconds(1.4), Seconds(1.9)}, 0.3}}};
}

TEST(TimedNotes, SoundAsPlayedWhereTheyWereMeasured) {
    const Study study = studyWith({});
    PlayedNotes played = heardLate();
    played.at(NoteId{1}).written = playedTime(study, study.notes[0].range());
    const TimedNote note = timedNotes(study, played).at(0);
    EXPECT_EQ(note.onset, Frames(1400));
    EXPECT_EQ(note.end, Frames(1900));
    EXPECT_DOUBLE_EQ(note.loudness, 0.3);
    // As written without a measure, and with one of a note that was written otherwise then.
    EXPECT_EQ(timedNotes(study).at(0).onset, Frames(1333));
    played.at(NoteId{1}).midi = 66;
    EXPECT_EQ(timedNotes(study, played), timedNotes(study));
}

TEST(TimedNotes, TakeTheirGhostAndAccentFromTheMeasureWherePlayed) {
    Phrasing accent;
    accent.accented = true;
    const Study study = studyWith(accent);
    PlayedNotes played = heardLate();
    played.at(NoteId{1}).written = playedTime(study, study.notes[0].range());
    EXPECT_DOUBLE_EQ(timedNotes(study, played).at(0).loudness, 0.3);
}

TEST(TimedNotes, BeginAGraceNoteAndASlideBeforeWhereTheNoteWasHeard) {
    Phrasing grace;
    grace.graceNotes = {65, 66};
    const Study study = studyWith(grace);
    PlayedNotes played = heardLate();
    played.at(NoteId{1}).written = playedTime(study, study.notes[0].range());
    // The string voice takes 60 ms for each (StringGesture).
    EXPECT_EQ(timedNotes(study, played).at(0).onset, Frames(1280));
}

} // namespace
} // namespace earwright
