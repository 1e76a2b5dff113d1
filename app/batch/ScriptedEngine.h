// What the steps of a script work on: the engine and what they have set of it so far.
#pragma once

#include "core/engine/Engine.h"
#include "core/result/Error.h"
#include "core/sound/Recording.h"

#include <memory>
#include <optional>

namespace earwright::batch {

struct ScriptedEngine {
    Engine& engine;
    std::shared_ptr<Recording> recording;
    LoopManner manner{};
    int semitones = 0;
    int cents = 0;
    bool isLooping = false;
    /// Why a step could not be carried out.
    std::optional<Error> failure{};

    Frames place(double seconds) const { return recording->rate().frames(Seconds(seconds)); }
    void setSpeed(double speed) { engine.setPlaying({speed, semitones, cents}); }
    /// At the speed that a climb may have reached.
    void setPitch() { engine.setPlaying({engine.now().reachedSpeed, semitones, cents}); }
};

} // namespace earwright::batch
