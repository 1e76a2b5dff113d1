// Measures core/engine/StretchDelay.cpp anew: clicks through the stretcher at every speed and transposition
// of its table, printed as that table. Run it when RubberBand changes; it takes some minutes.
#include "core/engine/StretchDelay.h"
#include "core/engine/Stretcher.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

namespace {

using earwright::SampleRate;
using earwright::Stretcher;

constexpr SampleRate rate{44100};
constexpr int clickCount = 61;

struct Clicks {
    std::vector<float> samples;
    std::vector<long> places;
};

/// Clicks over two quiet tones, at uneven distances of at least 0.15 s of source and 0.25 s of output.
Clicks clicksFor(double speed) {
    Clicks made;
    const double least = std::max(0.15, 0.25 * speed) * rate.hertz;
    unsigned random = 7;
    double at = 0.3 * rate.hertz;
    for (int i = 0; i < clickCount; ++i) {
        made.places.push_back(std::lround(at));
        random = random * 1664525u + 1013904223u;
        at += least * (1.0 + 0.4 * static_cast<double>(random >> 8) / 16777216.0);
    }
    made.samples.resize(static_cast<std::size_t>(at) + 22050);
    for (std::size_t i = 0; i < made.samples.size(); ++i) {
        const double t = static_cast<double>(i) / rate.hertz;
        made.samples[i] = static_cast<float>(0.02 * std::sin(1382.3 * t) + 0.02 * std::sin(2079.7 * t));
    }
    for (const long place : made.places)
        made.samples[static_cast<std::size_t>(place)] += 0.7f;
    return made;
}

std::vector<float> stretched(const Clicks& clicks, double speed, double semitones) {
    Stretcher stretcher(rate, 1);
    stretcher.start(speed, semitones);
    std::vector<float> out;
    std::vector<float> block(static_cast<std::size_t>(stretcher.chunk()));
    std::vector<float> ready(65536);
    for (long at = -stretcher.leadFrames(); at < static_cast<long>(clicks.samples.size());
         at += stretcher.chunk()) {
        for (std::size_t i = 0; i < block.size(); ++i) {
            const long place = at + static_cast<long>(i);
            const bool inside = place >= 0 && place < static_cast<long>(clicks.samples.size());
            block[i] = inside ? clicks.samples[static_cast<std::size_t>(place)] : 0.0f;
        }
        stretcher.process(block);
        const std::size_t got = stretcher.retrieve(ready);
        out.insert(out.end(), ready.begin(), ready.begin() + static_cast<long>(got));
    }
    return out;
}

/// Source frames by which the clicks came early beyond what the present table takes off.
double medianAdvance(double speed, double semitones) {
    const Clicks clicks = clicksFor(speed);
    const std::vector<float> out = stretched(clicks, speed, semitones);
    std::vector<double> early;
    for (const long place : clicks.places) {
        const long ideal = std::lround(static_cast<double>(place) / speed);
        const long around = static_cast<long>(0.11 * rate.hertz);
        long best = ideal;
        for (long i = std::max(0L, ideal - around); i < ideal + around; ++i)
            if (i < static_cast<long>(out.size()) &&
                std::abs(out[static_cast<std::size_t>(i)]) > std::abs(out[static_cast<std::size_t>(best)]))
                best = i;
        early.push_back(static_cast<double>(ideal - best) * speed);
    }
    std::sort(early.begin(), early.end());
    return early[early.size() / 2];
}

} // namespace

int main() {
    for (int i = earwright::attackTableFirst; i <= earwright::attackTableLast; ++i) {
        const double ratio = std::exp2(i / 12.0);
        // Speeds end at 0.1 and 2; beyond, the pitch makes up the ratio.
        const double speed = std::clamp(1.0 / ratio, 0.1, 2.0);
        const double semitones = 12.0 * std::log2(ratio * speed);
        const double measured = medianAdvance(speed, semitones) + earwright::attackAdvance(speed, semitones);
        std::printf("%.0f,%s", measured, (i - earwright::attackTableFirst) % 12 == 11 ? "\n" : " ");
        std::fflush(stdout);
    }
    std::printf("\n");
}
