#include "core/playback/BeatPlaces.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

/// Half-second beats from 0.25 s on, bar 1 at 1.25 s, at 1000 frames a second.
Study study() {
    Study marked;
    marked.recording.rate = SampleRate(1000);
    marked.beatMap = BeatMap({{Beats(0), Seconds(1.25)}, {Beats(4), Seconds(3.25)}});
    return marked;
}

TEST(BeatPlaces, LieOnEveryBeatOfTheRecording) {
    const auto places = beatPlaces(study(), Seconds(4));
    ASSERT_EQ(places.size(), 8u);
    for (std::size_t i = 0; i < places.size(); ++i)
        EXPECT_EQ(places[i].at, Frames(250 + 500 * static_cast<std::int64_t>(i)));
}

TEST(BeatPlaces, TellWhereBarsOpen) {
    const auto places = beatPlaces(study(), Seconds(4));
    for (const BeatPlace& place : places)
        EXPECT_EQ(place.opensBar, place.at == Frames(1250) || place.at == Frames(3250)) << place.at.value;
}

TEST(BeatPlaces, FollowABandThatSlowsDown) {
    Study slowing = study();
    slowing.beatMap = BeatMap({{Beats(0), Seconds(0)},
                               {Beats(1), Seconds(0.5)},
                               {Beats(2), Seconds(1.1)},
                               {Beats(3), Seconds(1.9)}});
    const auto places = beatPlaces(slowing, Seconds(2));
    ASSERT_EQ(places.size(), 4u);
    EXPECT_EQ(places[2].at, Frames(1100));
    EXPECT_EQ(places[3].at, Frames(1900));
}

TEST(BeatPlaces, AreNoneBeforeBarsAreMarked) {
    EXPECT_TRUE(beatPlaces(Study(), Seconds(10)).empty());
    EXPECT_TRUE(beatPlaces(study(), Seconds(0)).empty());
}

// Common practice: a bar of 6/8 is counted in two dotted quarters.
TEST(BeatPlaces, AreCountedInTheMeterOfTheirBar) {
    Study changing = study();
    changing.page.meters = {{2, {3, 4}}, {3, {6, 8}}, {4, {4, 4}}};
    const auto places = beatPlaces(changing, Seconds(8));
    // Beats of half a second from 1.25 s on: bars begin 4, 3 and 3 beats on.
    std::vector<std::int64_t> beats;
    std::vector<std::int64_t> bars;
    for (const BeatPlace& place : places) {
        if (place.at < Frames(1250) || place.at > Frames(6250)) continue;
        beats.push_back(place.at.value);
        if (place.opensBar) bars.push_back(place.at.value);
    }
    EXPECT_EQ(beats, (std::vector<std::int64_t>{1250, 1750, 2250, 2750, 3250, 3750, 4250, 4750, 5500, 6250}));
    EXPECT_EQ(bars, (std::vector<std::int64_t>{1250, 3250, 4750, 6250}));
}

} // namespace
} // namespace earwright
