#include "core/engine/MonitorTap.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double targetSeconds = 0.015;
/// So much more than the target, and the surplus is dropped rather than caught up with.
constexpr double mostSeconds = 0.06;
/// 0.2 % is 3.5 cents: enough for any two clocks, and hardly heard while it lasts.
constexpr double mostCorrection = 0.002;
constexpr double fadeSeconds = 0.01;

/// The cubic through four equally spaced points (Catmull–Rom), between the middle two.
float between(const std::array<float, 4>& p, double share) {
    const auto t = static_cast<float>(share);
    return p[1] + 0.5f * t *
                      (p[2] - p[0] +
                       t * (2 * p[0] - 5 * p[1] + 4 * p[2] - p[3] + t * (3 * (p[1] - p[2]) + p[3] - p[0])));
}

} // namespace

void MonitorTap::write(std::span<const float> mono, SampleRate inputRate) {
    rateHertz.store(inputRate.hertz, std::memory_order_relaxed);
    if (!heard()) return;
    waiting.write(mono.first(std::min(mono.size(), waiting.freeSpace())));
}

/// Whether enough waits; what is far too much is dropped.
bool MonitorTap::makeReady(double target) {
    const auto least = static_cast<std::size_t>(target);
    if (!flowing) flowing = waiting.readable() >= least;
    const auto most = static_cast<std::size_t>(target * mostSeconds / targetSeconds);
    if (waiting.readable() > most) waiting.skip(waiting.readable() - least);
    return flowing;
}

float MonitorTap::next(double step) {
    for (fraction += step; fraction >= 1; fraction -= 1) {
        float sample = 0;
        if (waiting.read({&sample, 1}) == 0) flowing = false;
        around = {around[1], around[2], around[3], sample};
    }
    return between(around, fraction);
}

void MonitorTap::add(std::span<float> mono, SampleRate outputRate) {
    const int inputRate = rateHertz.load(std::memory_order_relaxed);
    const bool wanted = heard();
    if (inputRate <= 0 || (!wanted && gain <= 0)) {
        waiting.skip(waiting.readable());
        flowing = false;
        return;
    }
    const double target = targetSeconds * inputRate;
    const bool ready = makeReady(target);
    const double surplus = (static_cast<double>(waiting.readable()) - target) / target;
    const double step = static_cast<double>(inputRate) / outputRate.hertz *
                        (1 + mostCorrection * std::clamp(surplus, -1.0, 1.0));
    const float aim = wanted && ready ? level.load(std::memory_order_relaxed) : 0.0f;
    const auto most = static_cast<float>(1 / (fadeSeconds * outputRate.hertz));
    for (float& sample : mono) {
        gain += std::clamp(aim - gain, -most, most);
        if (flowing) sample += gain * next(step);
    }
}

} // namespace earwright
