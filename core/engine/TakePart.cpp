#include "core/engine/TakePart.h"

#include "core/engine/TakeSound.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace earwright {

namespace {

/// What the stretcher's timing is known for (StretchDelay.h).
constexpr double slowest = 0.05;
constexpr double fastest = 4;
constexpr double mostSemitones = 13;
/// Rounding, not a difference in speed.
constexpr double same = 1e-9;

} // namespace

void TakePart::start(const Start& start, const TakePlayback& take) {
    on = true;
    const double speed = start.speed / take.speed;
    const double semitones = start.semitones - take.semitones;
    silent = speed < slowest || speed > fastest;
    if (silent) return;
    const SampleRate takeRate = take.sound->rate();
    const double perFrame = take.speed * start.recordingRate.hertz / takeRate.hertz;
    const double zero =
        static_cast<double>(take.at.value) - static_cast<double>(take.part.begin.value) * perFrame;
    const TimeTags line = start.tags.inFramesOf(zero, perFrame, start.early);
    RecordStart played;
    played.recording = std::make_shared<TakeSound>(take.sound, take.part);
    played.from = Frames(std::llround(line.start()));
    played.speed = std::abs(speed - 1) < same ? 1 : speed;
    played.semitones = std::abs(semitones) < same ? 0 : std::clamp(semitones, -mostSemitones, mostSemitones);
    played.outputRate = start.outputRate;
    part.start(played, line);
}

void TakePart::produce(std::span<float> out) {
    if (silent) {
        std::fill(out.begin(), out.end(), 0.0f);
        return;
    }
    part.produce(out);
}

} // namespace earwright
