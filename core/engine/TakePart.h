// A take as it is heard beside the record: at the place it was played, at any speed and pitch.
#pragma once

#include "core/engine/RecordPart.h"
#include "core/engine/TakePlayback.h"
#include "core/engine/TimeTags.h"
#include "core/time/SampleRate.h"

#include <cstdint>
#include <span>

namespace earwright {

/// Plays a take along the tags of a lane, from where its lead ends or a moment before. Heard as it was
/// played, its own sound is untouched; otherwise it goes through a stretcher of its own, and stays with the
/// record within its jitter. Where it would have to be more than four times faster or twenty times slower
/// than played, it is silent.
///
/// Threads: one at a time (the engine's worker). Reads the disk.
class TakePart {
public:
    struct Start {
        TimeTags tags;
        /// Played ÷ original, now.
        double speed = 1;
        /// How far the record is transposed now.
        double semitones = 0;
        SampleRate recordingRate;
        SampleRate outputRate;
        /// Output frames by which it sounds before the tags' start, to be faded in.
        std::int64_t early = 0;
    };
    void start(const Start& start, const TakePlayback& take);
    void stop() { on = false; }
    bool isOn() const { return on; }
    /// The next frames, mono. Requires: isOn().
    void produce(std::span<float> out);

private:
    RecordPart part;
    bool on = false;
    bool silent = false;
};

} // namespace earwright
