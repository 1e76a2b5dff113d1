// How loud the recording is around a place, as it was made.
#pragma once

#include "core/engine/Power.h"
#include "core/sound/Recording.h"
#include "core/time/Frames.h"

#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

namespace earwright {

/// Measured at the recording's own speed, whatever it is played at, a tenth of a second at a time as it is
/// asked for. A mono recording sounds on both ears.
///
/// Threads: one at a time (the engine's worker). Reads the disk; a jump costs some milliseconds of work,
/// going on from there a few per cent of what is played.
class RecordLevel {
public:
    /// Another recording; what was measured of the last one is forgotten.
    void take(std::shared_ptr<Recording> recording);
    /// The greatest momentary power (400 ms) from a second and a half before the place to half a second
    /// after.
    Power loudestNear(Frames place);
    /// The mean momentary power within two seconds, without pauses: gated at −70 LUFS and 10 LU below the
    /// mean, after ITU-R BS.1770-4. Nothing where all is pause.
    std::optional<Power> usualNear(Frames place);

private:
    const Power& step(std::int64_t index);
    Power momentary(std::int64_t firstStep);
    std::int64_t stepOf(Frames place) const { return place.value / stepFrames; }

    std::shared_ptr<Recording> recording;
    std::int64_t stepFrames = 4410;
    std::unordered_map<std::int64_t, Power> measured;
    std::vector<float> samples;
};

} // namespace earwright
