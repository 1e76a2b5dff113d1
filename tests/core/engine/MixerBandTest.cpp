// The band: which part of the record's spectrum is heard.
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

TEST(MixerBand, LetsABandOfTheRecordBeHeardAloneOrLeftOut) {
    for (const bool remove : {false, true}) {
        PlayingMixer playing(threeTones());
        playing.mixer.setBand(Band{500, 2000, remove});
        const auto heard = channel(playing.render(3 * 8820), 1, 8820);
        const auto part = std::span(heard).first(8820);
        EXPECT_NEAR(levelAt(part, 1000), remove ? 0 : 0.2, 1e-3);
        EXPECT_NEAR(levelAt(part, 200), remove ? 0.2 : 0, 1e-3);
        EXPECT_NEAR(levelAt(part, 5000), remove ? 0.2 : 0, 1e-3);
    }
}

TEST(MixerBand, LeavesWrittenNotesAloneWhateverTheBand) {
    PlayingMixer all(laneStart(0));
    PlayingMixer banded(laneStart(0));
    all.mixer.setHearing(Hearing::Yours);
    banded.mixer.setHearing(Hearing::Yours);
    banded.mixer.setBand(Band{5000, 6000});
    const auto plain = all.render(4096);
    const auto other = banded.render(4096);
    for (std::size_t i = 3000; i < plain.size(); ++i)
        ASSERT_NEAR(other[i], plain[i], 1e-6);
}

TEST(MixerBand, MovesABandWithoutAClickAndIsUntouchedWithoutOne) {
    PlayingMixer playing(threeTones());
    std::vector<float> all;
    const auto go = [&](std::size_t frames) {
        const auto part = channel(playing.render(frames), 0);
        all.insert(all.end(), part.begin(), part.end());
    };
    go(4096);
    for (int move = 0; move < 40; ++move) {
        playing.mixer.setBand(Band{100.0 + 20 * move, 3000.0 - 40 * move, move % 3 == 0});
        go(512);
    }
    playing.mixer.setBand(std::nullopt);
    go(4096);
    // A click is what lies far above all that is played. Second differences weigh 15,000 Hz like 1,
    // the steepest tone at 5,000 Hz by 0.2 · (2π · 5000/44100)² = 0.10; the filters add at most what they
    // ring.
    float steepest = 0;
    for (std::size_t i = 2; i < all.size(); ++i)
        steepest = std::max(steepest, std::abs(all[i] - 2 * all[i - 1] + all[i - 2]));
    EXPECT_LT(steepest, 0.14f);
    PlayingMixer plain(threeTones());
    const auto expected = channel(plain.render(all.size()), 0);
    for (std::size_t i = all.size() - 1024; i < all.size(); ++i)
        ASSERT_EQ(all[i], expected[i]);
}

} // namespace
} // namespace earwright
