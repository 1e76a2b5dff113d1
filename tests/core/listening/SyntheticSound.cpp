#include "tests/core/listening/SyntheticSound.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace earwright::tests {

std::vector<float> silence(Seconds length) {
    return std::vector<float>(static_cast<std::size_t>(length.value * analysisRate.hertz), 0.0f);
}

double hertzOf(double midi) {
    return 440 * std::exp2((midi - 69) / 12);
}

void addTone(std::vector<float>& sound, Range<Seconds> range, double midi, float level) {
    constexpr double attack = 0.006;
    constexpr double release = 0.020;
    constexpr int partials = 10;
    const double length = range.length().value;
    const auto first = static_cast<std::size_t>(analysisRate.frames(range.begin).value);
    const auto count = static_cast<std::size_t>((length + release) * analysisRate.hertz);
    for (std::size_t i = 0; i < count && first + i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / analysisRate.hertz;
        const double envelope =
            std::min({1.0, t / attack, (length + release - t) / release}) * std::pow(10.0, -8.0 / 20 * t);
        double sum = 0;
        for (int h = 1; h <= partials && h * hertzOf(midi) < analysisRate.hertz / 2.0; ++h)
            sum += std::sin(2 * std::numbers::pi * h * hertzOf(midi) * t) / h;
        sound[first + i] += level * static_cast<float>(envelope * sum);
    }
}

void addNoise(std::vector<float>& sound, float level) {
    std::mt19937 random(1);
    std::normal_distribution<float> normal(0, level);
    for (float& sample : sound)
        sample += normal(random);
}

} // namespace earwright::tests
