#include "core/check/BesideItsPlace.h"

#include <cmath>
#include <gtest/gtest.h>
#include <utility>
#include <vector>

namespace earwright {
namespace {

constexpr int written = 70, other = 72;
constexpr Claim claim{{Seconds(1.0), Seconds(1.15)}, written};

/// Where notes of a pitch begin for sure, and nothing else.
OnsetTrack onsetsAt(const std::vector<std::pair<Seconds, int>>& begun) {
    OnsetTrack::Row nothing;
    nothing.fill(-12);
    nothing[OnsetTrack::noOnset] = -0.01f;
    std::vector<OnsetTrack::Row> rows(200, nothing);
    for (const auto& [time, midi] : begun) {
        OnsetTrack::Row& row = rows[static_cast<std::size_t>(std::lround(time.value / 0.01))];
        row[static_cast<std::size_t>(midi - lowestHeardMidi)] = -0.1f;
        row[OnsetTrack::noOnset] = -3;
    }
    return {Seconds(0), Seconds(0.01), rows};
}

std::optional<Range<Seconds>> movedTo(std::vector<Claim> claims,
                                      const std::vector<std::pair<Seconds, int>>& begun) {
    const ClaimContext context{std::move(claims), ViewBlend({1}), {}, {}, {}, onsetsAt(begun)};
    return besideItsPlace(context, 0, true, Seconds(0));
}

TEST(BesideItsPlace, IsWhereTheClaimsPitchBeginsALittleLater) {
    const auto there = movedTo({claim}, {{Seconds(1.08), written}});
    ASSERT_TRUE(there);
    EXPECT_NEAR(there->begin.value, 1.08, 1e-9);
}

// The note before the one that was left out is written with that one's pitch: it is wrong, not late.
TEST(BesideItsPlace, IsNowhereWhereAnotherPitchThatNobodyWroteBegins) {
    EXPECT_FALSE(movedTo({claim}, {{Seconds(1.0), other}, {Seconds(1.08), written}}));
    EXPECT_FALSE(movedTo({claim}, {{Seconds(1.02), other}, {Seconds(1.08), written}}));
}

TEST(BesideItsPlace, MayBeginBehindANoteThatIsWritten) {
    const Claim both{claim.range, other};
    EXPECT_TRUE(movedTo({claim, both}, {{Seconds(1.0), other}, {Seconds(1.08), written}}));
}

TEST(BesideItsPlace, MindsNothingThatBeganLongBefore) {
    EXPECT_TRUE(movedTo({claim}, {{Seconds(0.95), other}, {Seconds(1.08), written}}));
}

} // namespace
} // namespace earwright
