#include "core/listening/HannWindow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace earwright {

namespace {

void fill(std::vector<float>& weights) {
    const std::size_t length = weights.size();
    // Four over the length: the window's sum is half its length, and a sine puts half of itself in its line.
    const double scale = 4.0 / static_cast<double>(length);
    const double step = 2 * std::numbers::pi / static_cast<double>(length - 1);
    // Eight turning points side by side instead of a cosine a sample; the two halves mirror each other.
    constexpr std::size_t lanes = 8;
    std::array<double, lanes> x;
    std::array<double, lanes> y;
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        x[lane] = std::cos(step * static_cast<double>(lane));
        y[lane] = std::sin(step * static_cast<double>(lane));
    }
    const double turnX = std::cos(step * lanes);
    const double turnY = std::sin(step * lanes);
    for (std::size_t i = 0; i < (length + 1) / 2; i += lanes) {
        for (std::size_t lane = 0; lane < std::min(lanes, length - i); ++lane)
            weights[i + lane] = weights[length - 1 - i - lane] =
                static_cast<float>(scale * (0.5 - 0.5 * x[lane]));
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const double turned = x[lane] * turnX - y[lane] * turnY;
            y[lane] = x[lane] * turnY + y[lane] * turnX;
            x[lane] = turned;
        }
    }
}

} // namespace

std::span<const float> HannWindow::of(std::size_t length) {
    if (latest.size() == length) return latest;
    std::swap(latest, before);
    if (latest.size() == length) return latest;
    latest.resize(length);
    fill(latest);
    return latest;
}

} // namespace earwright
