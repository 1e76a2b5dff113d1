#include "core/check/StudyPlaying.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

constexpr Seconds late{0.06};

/// Quarters at one a half second: on the beat on the left, late on the right.
struct TwoPlayers {
    AnalysisSound sound{silence(Seconds(6)), silence(Seconds(6))};
    Study study;

    TwoPlayers() {
        study.beatMap = BeatMap({{Beats(0), Seconds(0.5)}, {Beats(10), Seconds(5.5)}});
        for (int i = 0; i < 8; ++i) {
            const Seconds place(0.5 + 0.5 * i);
            study.notes.push_back({NoteId{static_cast<std::uint64_t>(i + 1)},
                                   Beats(i),
                                   Beats(1),
                                   Pitch{60 + 2 * i, {}},
                                   0.6,
                                   {}});
            addTone(sound.left, {place, place + Seconds(0.4)}, 60 + 2 * i);
            addTone(sound.right, {place + late, place + late + Seconds(0.4)}, 60 + 2 * i);
        }
    }

    /// A note as it is written, and nothing that was heard of it.
    MeasuredNote unmeasured(std::size_t note) const {
        return {phrasingClaims(study, study.notes)[note], writtenBetween(study, study.notes[note]), {}};
    }

    PlayedNotes measured(const HeardPart& part) const {
        return *measurePlaying(study, study.notes, *RecordingEvidence::listen(sound), {}, {}, part);
    }
};

TEST(StudyPlaying, IsMeasuredInThePartThatIsListenedTo) {
    const TwoPlayers players;
    for (const auto& [focus, behind] : {std::pair{Focus::Left, 0.0}, std::pair{Focus::Right, late.value}}) {
        const PlayedNotes played = players.measured({focus, {}});
        ASSERT_EQ(played.size(), players.study.notes.size());
        for (const auto& [id, note] : played)
            // The steps are 2.5 ms and the attack lasts 6 ms.
            EXPECT_NEAR((note.heard.begin - note.written.begin).value, behind, 0.010) << id.value;
    }
}

TEST(StudyPlaying, IsAskedAsTheLinesInstrumentHasIt) {
    TwoPlayers players;
    players.study.players.line = Instrument::Guitar;
    for (const PhrasingClaim& claim : phrasingClaims(players.study, players.study.notes))
        EXPECT_EQ(claim.character, LineCharacter::Plucked);
}

TEST(StudyPlaying, IsMeasuredAnewWhereTheLineTurnsOutToBeOfAnotherCharacter) {
    TwoPlayers players;
    const Note& note = players.study.notes[1];
    const MeasuredNote measured = players.unmeasured(1);
    EXPECT_TRUE(holdsFor(measured, players.study, note));
    players.study.players.line = PitchRange{40, 88};
    EXPECT_TRUE(holdsFor(measured, players.study, note)) << "a range says nothing of it";
    players.study.players.line = Instrument::Tenor;
    EXPECT_FALSE(holdsFor(measured, players.study, note));
}

TEST(StudyPlaying, IsMeasuredAnewWhereANoteBesideItChanged) {
    const TwoPlayers written;
    const MeasuredNote measured = written.unmeasured(3);
    for (const std::size_t beside : {2u, 4u}) {
        TwoPlayers changed;
        changed.study.notes[beside].pitch.midi += 1;
        EXPECT_FALSE(holdsFor(measured, changed.study, changed.study.notes[3])) << beside;
        changed = written;
        changed.study.notes.erase(changed.study.notes.begin() + static_cast<std::ptrdiff_t>(beside));
        const std::size_t own = beside < 3 ? 2 : 3;
        EXPECT_FALSE(holdsFor(measured, changed.study, changed.study.notes[own])) << beside;
    }
    TwoPlayers changed;
    changed.study.notes[1].pitch.midi += 1;
    changed.study.notes[3].phrasing.ghosted = true;
    EXPECT_TRUE(holdsFor(measured, changed.study, changed.study.notes[3]))
        << "farther off, and a sign of its own";
}

TEST(StudyPlaying, KnowsNoNeighbourBeforeTheFirstNoteNorAfterTheLast) {
    const TwoPlayers players;
    EXPECT_FALSE(writtenBetween(players.study, players.study.notes.front()).before);
    EXPECT_FALSE(writtenBetween(players.study, players.study.notes.back()).after);
    EXPECT_EQ(writtenBetween(players.study, players.study.notes[3]).before->midi, 64);
    EXPECT_EQ(writtenBetween(players.study, players.study.notes[3]).after->midi, 68);
}

} // namespace
} // namespace earwright
