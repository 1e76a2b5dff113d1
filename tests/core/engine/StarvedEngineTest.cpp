// The callback is starved on purpose: the recording holds its frames back until it is let go.
#include "core/engine/Engine.h"
#include "core/engine/KeptAhead.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/Soon.h"

#include <chrono>
#include <condition_variable>
#include <gtest/gtest.h>
#include <mutex>
#include <thread>

namespace earwright {
namespace {

using namespace std::chrono_literals;
using tests::soon;

constexpr int rate = 44100;

/// Stands for a disk or a network that does not answer for a while.
class HoldingBack final : public Recording {
public:
    explicit HoldingBack(std::shared_ptr<Recording> recording) : whole(std::move(recording)) {}

    const std::filesystem::path& path() const override { return whole->path(); }
    SampleRate rate() const override { return whole->rate(); }
    int channels() const override { return whole->channels(); }
    Frames length() const override { return whole->length(); }
    Frames read(Frames from, std::span<float> interleaved) override {
        std::unique_lock lock(guard);
        isAsked = true;
        letThrough.wait(lock, [this] { return isOpen; });
        return whole->read(from, interleaved);
    }

    void holdBack() {
        const std::lock_guard lock(guard);
        isOpen = false;
        isAsked = false;
    }
    void letGo() {
        {
            const std::lock_guard lock(guard);
            isOpen = true;
        }
        letThrough.notify_all();
    }
    bool isWaitedFor() {
        const std::lock_guard lock(guard);
        return isAsked;
    }

private:
    std::shared_ptr<Recording> whole;
    std::mutex guard;
    std::condition_variable letThrough;
    bool isOpen = true;
    bool isAsked = false;
};

class StarvedEngine : public testing::Test {
protected:
    StarvedEngine() : engine(Engine::Options{{}, false}) {
        engine.setRecording(recording);
        engine.play();
        EXPECT_TRUE(movesOn());
    }
    ~StarvedEngine() override { recording->letGo(); }

    bool movesOn() {
        const Frames before = engine.now().position;
        return soon([&] { return engine.now().position > before + Frames(rate / 5); });
    }
    void starve() {
        const int before = engine.device().underruns;
        recording->holdBack();
        ASSERT_TRUE(soon([&] { return engine.device().underruns > before; }));
        ASSERT_TRUE(recording->isWaitedFor());
    }
    void feed() {
        recording->letGo();
        ASSERT_TRUE(movesOn());
    }

    std::shared_ptr<HoldingBack> recording =
        std::make_shared<HoldingBack>(tests::held(std::vector<float>(300 * rate, 0.1f), rate));
    Engine engine;
};

TEST_F(StarvedEngine, KeepsMoreReadyAfterAGapAndSaysSo) {
    const DeviceReport before = engine.device();
    EXPECT_EQ(before.underruns, 0);
    EXPECT_FALSE(before.grown);
    starve();
    feed();
    const DeviceReport after = engine.device();
    EXPECT_TRUE(after.grown);
    // A busy machine may add gaps of its own; each is good for as much.
    EXPECT_NEAR(after.bufferSeconds, (KeptAhead{0.08, after.underruns}.seconds()), 1e-9);
    EXPECT_GE(after.bufferSeconds, before.bufferSeconds + 0.049);
    ASSERT_TRUE(soon([&] { return !engine.device().events.empty(); }));
    const DeviceEvent event = engine.device().events.back();
    EXPECT_GE(event.underruns, 1);
    EXPECT_NE(event.message.find("kept ready"), std::string::npos) << event.message;
}

TEST_F(StarvedEngine, CountsOneGapHoweverLongItLasts) {
    starve();
    const int once = engine.device().underruns;
    std::this_thread::sleep_for(300ms);
    EXPECT_EQ(engine.device().underruns, once);
}

TEST_F(StarvedEngine, StandsStillInAGapAndGoesOnFromThere) {
    starve();
    std::this_thread::sleep_for(50ms);
    const Frames gap = engine.now().position;
    std::this_thread::sleep_for(300ms);
    EXPECT_EQ(engine.now().position, gap) << "nothing sounds, so the ear stands still";
    EXPECT_TRUE(engine.now().playing);
    recording->letGo();
    ASSERT_TRUE(soon([&] { return engine.now().position > gap; }));
    EXPECT_LT(engine.now().position, gap + Frames(rate)) << "and misses nothing";
    EXPECT_TRUE(movesOn());
}

TEST_F(StarvedEngine, NeverKeepsMoreThanItsBound) {
    for (int gap = 0; gap < KeptAhead::mostSteps + 2; ++gap) {
        starve();
        feed();
    }
    const DeviceReport report = engine.device();
    EXPECT_GE(report.underruns, KeptAhead::mostSteps + 2);
    EXPECT_NEAR(report.bufferSeconds, KeptAhead{}.atFirst() + KeptAhead::mostSteps * KeptAhead::moreEachGap,
                1e-9);
    EXPECT_LE(report.bufferSeconds, KeptAhead::most);
}

} // namespace
} // namespace earwright
