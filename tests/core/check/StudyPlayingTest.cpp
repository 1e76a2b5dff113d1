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
    const MeasuredNote measured{phrasingClaims(players.study, players.study.notes)[1], {}};
    EXPECT_TRUE(holdsFor(measured, players.study, note));
    players.study.players.line = PitchRange{40, 88};
    EXPECT_TRUE(holdsFor(measured, players.study, note)) << "a range says nothing of it";
    players.study.players.line = Instrument::Tenor;
    EXPECT_FALSE(holdsFor(measured, players.study, note));
}

} // namespace
} // namespace earwright
