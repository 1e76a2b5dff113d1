#include "core/listening/Passages.h"

#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

TEST(Passages, GatherSpansLessThanFourSecondsApart) {
    // In time 1–2, 5.5–6 (3.5 s later), 11–12 (5 s later).
    const auto passages = passagesOf({{11.0_s, 12.0_s}, {1.0_s, 2.0_s}, {5.5_s, 6.0_s}}, 60.0_s);
    ASSERT_EQ(passages.size(), 2u);
    EXPECT_EQ(passages[0].members, (std::vector<std::size_t>{1, 2}));
    EXPECT_EQ(passages[0].range, (Range<Seconds>{0.0_s, 7.0_s}));
    EXPECT_EQ(passages[1].members, (std::vector<std::size_t>{0}));
    EXPECT_EQ(passages[1].range, (Range<Seconds>{10.0_s, 13.0_s}));
}

TEST(Passages, StayInsideTheRecording) {
    const auto passages = passagesOf({{0.2_s, 2.8_s}}, 3.0_s);
    ASSERT_EQ(passages.size(), 1u);
    EXPECT_EQ(passages[0].range, (Range<Seconds>{0.0_s, 3.0_s}));
    EXPECT_TRUE(passagesOf({}, 3.0_s).empty());
}

} // namespace
} // namespace earwright
