// What is judged by the sound that came out of a device cannot be where a busy machine made gaps in it.
#pragma once

#include "core/engine/Engine.h"

#include <chrono>
#include <functional>
#include <gtest/gtest.h>
#include <string>
#include <thread>

namespace earwright::tests {

/// Runs what is to be heard anew, three times at most, until no gap fell into it. False where there was one
/// each time; but then the engine must have made more ready for it.
inline bool heardWithoutGaps(Engine& engine, const std::function<void()>& run) {
    for (int attempt = 0; attempt < 3; ++attempt) {
        // What was rendered before is heard first.
        if (attempt > 0) std::this_thread::sleep_for(std::chrono::milliseconds(500));
        const int before = engine.device().underruns;
        run();
        if (engine.device().underruns == before) return true;
    }
    EXPECT_TRUE(engine.device().grown) << "gaps, and nothing done about them";
    return false;
}

/// The one failure to measure a round trip that a busy machine is to blame for.
inline bool cameBackAtDifferentTimes(const std::string& message) {
    return message.find("different times") != std::string::npos;
}

} // namespace earwright::tests
