#include "core/engine/RoundTrip.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Both clocks are means over many reports.
constexpr double settleSeconds = 0.5;
/// From ordering a mark: covers the latencies of any two devices that can be played with.
constexpr double listenSeconds = 0.8;
/// More than the smoothing of both clocks leaves.
constexpr double mostSpread = 0.002;

} // namespace

void RoundTrip::startMark(const InputBlock& block) {
    heard.clear();
    heardFrom = block.first;
    mixer.mark().order();
    ordered = true;
}

void RoundTrip::give(const InputBlock& block) {
    if (answer) return;
    if (block.stream != stream) {
        stream = block.stream;
        rate = SampleRate{block.rateHertz};
        settling = std::llround(settleSeconds * rate.hertz);
        ordered = false;
    }
    settling -= static_cast<std::int64_t>(block.frames);
    if (settling > 0) return;
    if (!ordered) startMark(block);
    // Lost frames are silence, so that what follows stays in its place.
    const auto most = static_cast<std::int64_t>(listenSeconds * rate.hertz);
    const auto at = std::clamp<std::int64_t>((block.first - heardFrom).value, 0, most);
    heard.resize(std::max(heard.size(), static_cast<std::size_t>(at)));
    for (std::size_t i = 0; i < block.frames; ++i)
        heard.push_back(block.mono(i));
    if (static_cast<std::int64_t>(heard.size()) < most) return;
    lookForMark();
    ordered = false;
    const bool isHopeless = ++tried >= fewestMarks && found.empty();
    if (tried == mostMarks || isHopeless || agreed()) conclude();
}

void RoundTrip::lookForMark() {
    const auto began = mixer.mark().begun();
    const auto place = Mark::find(heard, rate);
    if (!began || !place) return;
    const auto captured = capture.timeOf(heardFrom + InputFrames(static_cast<std::int64_t>(place->at)));
    const HeardClock clock = mixer.heard().clock();
    if (!captured) return;
    const double left = static_cast<double>(clock.steadyNanoseconds) +
                        static_cast<double>((*began - clock.output).value) * 1e9 / clock.rateHertz;
    found.push_back((static_cast<double>(*captured) - left) * 1e-9);
}

/// The mean of those that agree with one of them within a millisecond, where they are enough.
std::optional<double> RoundTrip::agreed() const {
    for (const double candidate : found) {
        double sum = 0;
        int count = 0;
        for (const double value : found) {
            if (std::abs(value - candidate) > mostSpread / 2) continue;
            sum += value;
            ++count;
        }
        if (count >= agreeing) return sum / count;
    }
    return std::nullopt;
}

void RoundTrip::conclude() {
    if (const auto seconds = agreed()) {
        answer = *seconds;
        return;
    }
    const bool heardAny = static_cast<int>(found.size()) >= agreeing;
    answer = Error{
        ErrorKind::Device,
        heardAny
            ? "The marks came back at different times; close what else uses the sound device and try again."
            : "The marks did not come back: connect output and input by a cable, or hold the microphone to "
              "the headphone, turn it up a little and try again.",
        ""};
}

} // namespace earwright
