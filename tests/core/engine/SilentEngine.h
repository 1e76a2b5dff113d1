// An engine without a device, as everything above it is tested with.
#pragma once

#include "core/engine/Engine.h"
#include "tests/core/engine/HeldRecording.h"
#include "tests/core/engine/Soon.h"

#include <functional>
#include <gtest/gtest.h>
#include <memory>
#include <vector>

namespace earwright::tests {

namespace silent_engine {

constexpr int rate = 44100;

inline Frames at(double seconds) {
    return SampleRate{rate}.frames(Seconds(seconds));
}

inline std::shared_ptr<Recording> tenSeconds() {
    std::vector<float> samples(10 * rate);
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = i % 100 < 50 ? 0.2f : -0.2f;
    return held(samples, rate);
}

inline TimedNote noteAt(double seconds) {
    TimedNote note;
    note.onset = at(seconds);
    note.end = at(seconds + 0.5);
    return note;
}

} // namespace silent_engine

/// Plays ten seconds on the silent clock in real time. Waiting is generous, because the machine may be busy;
/// what is asserted is where the engine ends up, not how fast.
class SilentEngine : public testing::Test {
protected:
    SilentEngine() : engine(Engine::Options{{}, false}) { engine.setRecording(silent_engine::tenSeconds()); }
    /// The first answer of now() like that; nothing within some seconds is a failure.
    Heard heard(const std::function<bool(const Heard&)>& like) {
        Heard last;
        EXPECT_TRUE(soon([&] { return like(last = engine.now()); }));
        return last;
    }
    bool reaches(Frames place) {
        return soon([&] { return engine.now().position >= place; });
    }
    Engine engine;
};

} // namespace earwright::tests
