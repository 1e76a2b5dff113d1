// What a hand plays just before a note is that note's grace note.
#include "core/exchange/PlayedGraces.h"

#include "core/exchange/PlayedByHand.h"

#include <cstddef>
#include <cstdint>
#include <gtest/gtest.h>
#include <random>
#include <vector>

namespace earwright {
namespace {

/// 120 quarters a minute, so that 48 ticks of 480 to the beat are 50 ms.
Study frameAt120() {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(64), Seconds(32)}});
    return study;
}

struct Key {
    std::int64_t begin;
    std::int64_t end;
    int midi;
};

std::vector<ForeignNote> read(const std::vector<Key>& keys) {
    std::vector<ForeignNote> notes;
    for (const Key& key : keys)
        notes.push_back({Beats(key.begin, 480), Beats(key.end, 480), Pitch{key.midi, {}}});
    return withPlayedGraces(frameAt120(), std::move(notes));
}

TEST(PlayedGraces, LeadToTheirNoteAndTheNoteBeforeGoesOn) {
    const auto notes = read({{0, 430, 60}, {435, 490, 63}, {478, 900, 64}});
    ASSERT_EQ(notes.size(), 2u);
    EXPECT_EQ(notes[1].phrasing.graceNotes, std::vector{63});
    EXPECT_EQ(notes[1].begin, Beats(478, 480));
    EXPECT_EQ(notes[0].end, notes[1].begin);
    const auto two = read({{400, 440, 62}, {440, 480, 63}, {480, 900, 64}});
    ASSERT_EQ(two.size(), 1u);
    EXPECT_EQ(two[0].phrasing.graceNotes, (std::vector{62, 63}));
}

TEST(PlayedGraces, AreNoneWhereANoteIsItsOwn) {
    EXPECT_EQ(read({{400, 470, 63}, {480, 900, 64}}).size(), 2u) << "83 ms before";
    EXPECT_EQ(read({{440, 480, 57}, {480, 900, 64}}).size(), 2u) << "a fifth below";
    EXPECT_EQ(read({{470, 900, 60}, {480, 900, 64}}).size(), 2u)
        << "a double stop that is not quite together";
    EXPECT_EQ(read({{440, 480, 63}, {480, 520, 64}, {900, 950, 65}}).size(), 3u) << "no longer than it";
    EXPECT_EQ(read({{440, 480, 63}, {480, 540, 64}, {550, 950, 65}}).size(), 3u) << "73 ms to the next";
    EXPECT_EQ(read({{336, 384, 60}, {384, 432, 62}, {432, 480, 63}, {480, 900, 64}}).size(), 4u)
        << "three are a figure";
    EXPECT_EQ(read({{440, 480, 64}, {480, 900, 64}}).size(), 2u) << "struck twice";
}

// Eighths with a grace note before every fifth one, scattered by 8 ms.
TEST(PlayedGraces, LeaveTheRhythmToTheNotes) {
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        std::mt19937 random(seed);
        std::normal_distribution<double> off(0, 0.008);
        std::vector<ForeignNote> notes;
        const auto add = [&](double seconds, double length, int midi) {
            const Beats begin = Beats::nearest(2 * seconds, 480);
            notes.push_back({begin, begin + Beats::nearest(2 * length, 480), Pitch{midi, {}}});
        };
        for (int i = 0; i < 60; ++i) {
            const double at = 1 + 0.25 * i + off(random);
            const int midi = 60 + 5 * i % 7;
            if (i % 5 == 4) add(at - 0.045, 0.05, midi - 1);
            add(at, 0.2, midi);
        }
        const CountedNotes counted =
            countedByHand(frameAt120(), withPlayedGraces(frameAt120(), std::move(notes)));
        ASSERT_EQ(counted.notes.size(), 60u) << seed;
        for (std::size_t i = 0; i < 60; ++i) {
            EXPECT_EQ(counted.notes[i].begin, Beats(static_cast<std::int64_t>(4 + i), 2)) << seed;
            EXPECT_EQ(counted.notes[i].phrasing.graceNotes.size(), i % 5 == 4 ? 1u : 0u) << i;
        }
    }
}

} // namespace
} // namespace earwright
