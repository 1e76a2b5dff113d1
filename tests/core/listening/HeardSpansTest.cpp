#include "core/listening/HeardSpans.h"

#include "core/listening/PassageEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <gtest/gtest.h>

namespace earwright {
namespace {

using namespace tests;

std::shared_ptr<const HeardSpan> heardWith(float value) {
    HeardSpan heard;
    heard.row[0] = value;
    return std::make_shared<const HeardSpan>(heard);
}

TEST(HeardSpans, FindsTheSameSpanInTheSameViewOnly) {
    HeardSpans spans;
    spans.keep(0, {1.0_s, 1.5_s}, heardWith(1));
    spans.keep(1, {1.0_s, 1.5_s}, heardWith(2));
    EXPECT_EQ(spans.find(0, {1.0_s, 1.5_s})->row[0], 1);
    EXPECT_EQ(spans.find(1, {1.0_s, 1.5_s})->row[0], 2);
    EXPECT_FALSE(spans.find(2, {1.0_s, 1.5_s}));
    EXPECT_FALSE(spans.find(0, {1.0_s, 1.4_s}));
    EXPECT_FALSE(spans.find(0, {1.1_s, 1.5_s}));
}

TEST(HeardSpans, StartsAfreshRatherThanGrowWithoutEnd) {
    HeardSpans spans;
    for (std::size_t i = 0; i < HeardSpans::mostSpans; ++i)
        spans.keep(0, {Seconds(static_cast<double>(i)), Seconds(static_cast<double>(i) + 0.5)}, heardWith(1));
    EXPECT_TRUE(spans.find(0, {0.0_s, 0.5_s}));
    spans.keep(0, {9000.0_s, 9001.0_s}, heardWith(2));
    EXPECT_FALSE(spans.find(0, {0.0_s, 0.5_s}));
    EXPECT_TRUE(spans.find(0, {9000.0_s, 9001.0_s}));
}

TEST(HeardSpans, LeaveAnswersAsTheyAreWhateverWasAskedBefore) {
    AnalysisSound sound;
    sound.left = silence(3.0_s);
    addTone(sound.left, {1.0_s, 1.4_s}, 64);
    addTone(sound.left, {1.5_s, 1.9_s}, 67);
    const Range<Seconds> first{1.0_s, 1.4_s};
    const Range<Seconds> second{1.5_s, 1.9_s};
    const auto one = PassageEvidence::listen(sound, 0, {0.5_s, 2.5_s});
    const auto other = PassageEvidence::listen(sound, 0, {0.5_s, 2.5_s});
    ASSERT_TRUE(one && other);
    const auto fresh = one->spans(0, {first, second});
    other->spans(0, {second});
    const auto remembered = other->spans(0, {first, second});
    EXPECT_EQ(remembered[0].log, fresh[0].log);
    EXPECT_EQ(remembered[1].log, fresh[1].log);
    EXPECT_EQ(lowestHeardMidi + static_cast<int>(remembered[0].best()), 64);
    EXPECT_EQ(lowestHeardMidi + static_cast<int>(remembered[1].best()), 67);
}

} // namespace
} // namespace earwright
