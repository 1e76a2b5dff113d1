#include "core/sound/PagedRecording.h"

#include <algorithm>
#include <array>
#include <gtest/gtest.h>
#include <memory>
#include <vector>

namespace earwright {
namespace {

constexpr SampleRate rate{44100};
constexpr std::int64_t length = std::int64_t{44100} * 60 * 20;

/// Twenty minutes whose every sample tells its frame, and which counts how often it is decoded.
class CountedFile final : public SoundFile {
public:
    explicit CountedFile(std::shared_ptr<int> count) : decodes(std::move(count)) {}

    static float sampleAt(std::int64_t frame) { return static_cast<float>(frame % 30011) / 30011.0f; }

    SampleRate rate() const override { return earwright::rate; }
    int channels() const override { return 1; }
    Frames length() const override { return Frames(earwright::length); }
    Frames position() const override { return next; }
    Frames read(Frames from, std::span<float> interleaved) override {
        ++*decodes;
        for (std::size_t i = 0; i < interleaved.size(); ++i)
            interleaved[i] = sampleAt(from.value + static_cast<std::int64_t>(i));
        next = from + Frames(static_cast<std::int64_t>(interleaved.size()));
        return Frames(static_cast<std::int64_t>(interleaved.size()));
    }
    Result<std::unique_ptr<SoundFile>> another() const override {
        return std::unique_ptr<SoundFile>(std::make_unique<CountedFile>(decodes));
    }

private:
    std::shared_ptr<int> decodes;
    Frames next;
};

class PagedRecordingTest : public testing::Test {
protected:
    /// Plays [from, from + seconds) in blocks as the engine reads it; returns the decodes that took.
    int decodesOf(double from, double seconds) {
        const int before = *decodes;
        std::array<float, 256> block{};
        const std::int64_t end = rate.frames(Seconds(from + seconds)).value;
        for (std::int64_t at = rate.frames(Seconds(from)).value; at < end; at += 256) {
            recording.read(Frames(at), block);
            EXPECT_EQ(block[0], CountedFile::sampleAt(at));
        }
        return *decodes - before;
    }
    std::shared_ptr<const void> hold(double from, double to) {
        return recording.hold({rate.frames(Seconds(from)), rate.frames(Seconds(to))});
    }

    std::shared_ptr<int> decodes = std::make_shared<int>(0);
    PagedRecording recording{"counted", std::make_unique<CountedFile>(decodes)};
};

TEST_F(PagedRecordingTest, DecodesALoopOnlyOnceThatIsHeldWhateverIsReadElsewhere) {
    const auto held = hold(100, 160);
    EXPECT_GT(decodesOf(100, 60), 0);
    EXPECT_GT(decodesOf(300, 300), 100);
    EXPECT_EQ(decodesOf(100, 60), 0);
}

TEST_F(PagedRecordingTest, DecodesALoopAgainThatIsNoLongerHeld) {
    auto held = hold(100, 110);
    decodesOf(100, 10);
    held.reset();
    decodesOf(300, 300);
    EXPECT_GT(decodesOf(100, 10), 0);
}

TEST_F(PagedRecordingTest, HoldsBothEndsOfALoopTooLongToHold) {
    const auto held = hold(100, 400);
    decodesOf(100, 300);
    decodesOf(600, 300);
    EXPECT_EQ(decodesOf(100, 1), 0);
    EXPECT_EQ(decodesOf(399, 0.99), 0);
    EXPECT_GT(decodesOf(200, 100), 50);
}

TEST_F(PagedRecordingTest, HoldsTheLatestLoopWhereMemoryIsNotEnoughForTwo) {
    const auto earlier = hold(100, 150);
    decodesOf(100, 50);
    const auto later = hold(300, 350);
    decodesOf(300, 50);
    decodesOf(600, 300);
    EXPECT_EQ(decodesOf(300, 50), 0);
    EXPECT_GT(decodesOf(100, 50), 20);
}

TEST_F(PagedRecordingTest, HoldsTwoShortLoopsAtOnce) {
    const auto one = hold(100, 110);
    const auto other = hold(300, 310);
    decodesOf(100, 10);
    decodesOf(300, 10);
    decodesOf(600, 300);
    EXPECT_EQ(decodesOf(100, 10) + decodesOf(300, 10), 0);
}

TEST_F(PagedRecordingTest, MayBeGoneBeforeALoopOfItsIsLetGo) {
    auto gone = std::make_unique<PagedRecording>("counted", std::make_unique<CountedFile>(decodes));
    const auto held = gone->hold({Frames(0), Frames(44100)});
    ASSERT_NE(held, nullptr);
    gone.reset();
}

} // namespace
} // namespace earwright
