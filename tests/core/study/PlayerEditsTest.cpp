#include "core/study/PlayerEdits.h"

#include "core/study/History.h"
#include "tests/core/study/SampleStudy.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

TEST(PlayerEdits, KeepWhatTheUserSays) {
    const Players said{Instrument::Tenor, StereoPlace::Left};
    const Study study = setPlayers(fullStudy(), said);
    EXPECT_EQ(study.players, said);
    EXPECT_EQ(setPlayers(study, {}).players, Players{});
}

TEST(PlayerEdits, ARangeThatIsNoneChangesNothing) {
    const Study study = setPlayers(eightBarsAt120(), {Instrument::Voice, StereoPlace::Right});
    for (const PitchRange& range :
         {PitchRange{60, 60}, PitchRange{70, 50}, PitchRange{-1, 60}, PitchRange{60, 128}})
        EXPECT_EQ(setPlayers(study, {range, StereoPlace::Left}), study);
}

TEST(PlayerEdits, CanBeTakenBack) {
    const Study before = eightBarsAt120();
    History history(before);
    history.apply("who plays", setPlayers(before, {PitchRange{50, 80}, StereoPlace::Centre}));
    history.undo();
    EXPECT_EQ(history.present(), before);
    history.redo();
    EXPECT_EQ(history.present().players, (Players{PitchRange{50, 80}, StereoPlace::Centre}));
}

} // namespace
} // namespace earwright
