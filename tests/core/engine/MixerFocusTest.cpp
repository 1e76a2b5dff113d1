// Focus: which part of the record's stereo picture is heard.
#include "core/engine/Mixer.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/PlayingMixer.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <span>
#include <vector>

namespace earwright {
namespace {

using namespace tests::playing_mixer;
using tests::rootMeanSquare;

TEST(MixerFocus, FocusesOnAPartOfTheStereoPicture) {
    struct Expected {
        Focus focus;
        float left;
        float right;
    };
    // Mid and side of 0.25 and 0.125: half the sum and half the difference (common practice).
    for (const auto& [focus, left, right] :
         {Expected{Focus::All, 0.25f, 0.125f}, Expected{Focus::Left, 0.25f, 0.25f},
          Expected{Focus::Right, 0.125f, 0.125f}, Expected{Focus::Centre, 0.1875f, 0.1875f},
          Expected{Focus::Sides, 0.0625f, 0.0625f}}) {
        PlayingMixer playing(laneStart(1000));
        playing.mixer.setFocus(focus);
        const auto out = playing.render(2048);
        for (std::size_t i = 2000; i < 2048; ++i) {
            ASSERT_NEAR(out[2 * i], left, 1e-6) << static_cast<int>(focus);
            ASSERT_NEAR(out[2 * i + 1], right, 1e-6) << static_cast<int>(focus);
        }
    }
}

TEST(MixerFocus, HasSilentSidesWhereBothChannelsAreTheSame) {
    Lane::Start start = laneStart(0);
    start.record.recording = tests::held(std::vector<float>(88200, 0.5f), rate.hertz, 1);
    PlayingMixer playing(start);
    playing.mixer.setFocus(Focus::Sides);
    const auto out = playing.render(2048);
    EXPECT_NEAR(out[2 * 2000], 0.0f, 1e-6);
    EXPECT_NEAR(out[2 * 2000 + 1], 0.0f, 1e-6);
}

TEST(MixerFocus, FoldsTheRecordInFocusWhenSplit) {
    PlayingMixer playing(laneStart(0));
    playing.lane.setNotes(noteListOf({}));
    playing.mixer.setHearing(Hearing::Split);
    playing.mixer.setFocus(Focus::Right);
    const auto out = playing.render(4096);
    EXPECT_NEAR(out[2 * 4000], 0.125f, 1e-6);
}

TEST(MixerFocus, LeavesWrittenNotesAloneWhateverTheFocus) {
    PlayingMixer all(laneStart(0));
    PlayingMixer sides(laneStart(0));
    all.mixer.setHearing(Hearing::Yours);
    sides.mixer.setHearing(Hearing::Yours);
    sides.mixer.setFocus(Focus::Sides);
    const auto plain = all.render(4096);
    const auto focused = sides.render(4096);
    EXPECT_GT(rootMeanSquare(std::span(plain).subspan(3000)), 0.008);
    for (std::size_t i = 3000; i < plain.size(); ++i)
        ASSERT_NEAR(focused[i], plain[i], 1e-6);
}

TEST(MixerFocus, ChangesFocusWithinTenMillisecondsAndWithoutAClick) {
    PlayingMixer playing(laneStart(5 * rate.hertz));
    playing.lane.setNotes(noteListOf({}));
    playing.render(1024);
    for (const Focus focus : {Focus::Left, Focus::Sides, Focus::Centre, Focus::Right, Focus::All}) {
        playing.mixer.setFocus(focus);
        const auto out = playing.render(1024);
        for (const std::size_t ear : {0u, 1u}) {
            const auto heard = channel(out, ear);
            // Two weights of one ear move by at most 1/441 a frame, over samples of 0.25 and 0.125.
            EXPECT_LE(largestStep(heard), 0.375f / 441 + 1e-6f);
            for (std::size_t i = 442; i < heard.size(); ++i)
                ASSERT_NEAR(heard[i], heard.back(), 1e-5) << static_cast<int>(focus);
        }
    }
}

} // namespace
} // namespace earwright
