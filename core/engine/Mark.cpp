#include "core/engine/Mark.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double lowest = 600;
constexpr double highest = 6000;
constexpr double leastLikeness = 0.3;
/// Another place that is nearly as like it, further away than an echo in the device, makes the answer
/// unclear.
constexpr double unclearShare = 0.85;
constexpr double sameSeconds = 0.01;
/// Below this no sound came in at all.
constexpr double silence = 1e-9;

/// Likeness at each place: correlation over the square root of both energies.
std::vector<float> likenessAlong(std::span<const float> mono, std::span<const float> mark) {
    std::vector<float> along(mono.size() - mark.size() + 1);
    double ownEnergy = 0;
    for (const float sample : mark)
        ownEnergy += static_cast<double>(sample) * static_cast<double>(sample);
    double energy = 0;
    for (const float sample : mono.first(mark.size()))
        energy += static_cast<double>(sample) * static_cast<double>(sample);
    for (std::size_t at = 0; at < along.size(); ++at) {
        // Four sums side by side, which the compiler turns into vector code.
        float sums[4] = {};
        for (std::size_t i = 0; i + 4 <= mark.size(); i += 4)
            for (std::size_t k = 0; k < 4; ++k)
                sums[k] += mark[i + k] * mono[at + i + k];
        const double product = static_cast<double>(sums[0] + sums[1] + sums[2] + sums[3]);
        if (energy > silence) along[at] = static_cast<float>(product / std::sqrt(energy * ownEnergy));
        if (at + mark.size() < mono.size()) {
            const auto in = static_cast<double>(mono[at + mark.size()]);
            const auto out = static_cast<double>(mono[at]);
            energy = std::max(0.0, energy + in * in - out * out);
        }
    }
    return along;
}

} // namespace

std::size_t Mark::frames(SampleRate rate) {
    return static_cast<std::size_t>(std::llround(seconds * rate.hertz));
}

float Mark::sampleAt(std::size_t frame, SampleRate rate) {
    const double t = static_cast<double>(frame) / rate.hertz;
    if (t >= seconds) return 0;
    const double phase = 2 * M_PI * (lowest * t + 0.5 * (highest - lowest) / seconds * t * t);
    const double window = 0.5 - 0.5 * std::cos(2 * M_PI * t / seconds);
    return loudness * static_cast<float>(window * std::sin(phase));
}

std::optional<Mark::Found> Mark::find(std::span<const float> mono, SampleRate rate) {
    std::vector<float> mark(frames(rate));
    for (std::size_t i = 0; i < mark.size(); ++i)
        mark[i] = sampleAt(i, rate);
    if (mono.size() < mark.size()) return std::nullopt;
    const std::vector<float> along = likenessAlong(mono, mark);
    const auto isLess = [](float a, float b) { return std::abs(a) < std::abs(b); };
    const auto best = std::max_element(along.begin(), along.end(), isLess);
    const float most = std::abs(*best);
    if (static_cast<double>(most) < leastLikeness) return std::nullopt;
    const auto same = static_cast<std::ptrdiff_t>(sameSeconds * rate.hertz);
    const auto rival = [&](auto from, auto to) {
        return from<to&& static_cast<double>(std::abs(*std::max_element(from, to, isLess)))> unclearShare *
               static_cast<double>(most);
    };
    const auto before = best - std::min(same, best - along.begin());
    const auto after = best + std::min(same, along.end() - best);
    if (rival(along.begin(), before) || rival(after, along.end())) return std::nullopt;
    return Found{static_cast<std::size_t>(best - along.begin()), static_cast<double>(*best)};
}

} // namespace earwright
