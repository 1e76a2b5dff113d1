#include "core/engine/KWeighting.h"

#include <cmath>
#include <numbers>

namespace earwright {

namespace {

// The analogue filters that the bilinear transform turns into the standard's tables at 48 kHz.
constexpr double shelfHertz = 1681.974450955533;
constexpr double shelfDecibels = 3.999843853973347;
constexpr double shelfQ = 0.7071752369554196;
constexpr double shelfMiddle = 0.4996667741545416;
constexpr double passHertz = 38.13547087602444;
constexpr double passQ = 0.5003270373238773;
constexpr double inaudible = 1e-25;

} // namespace

void KWeighting::setRate(SampleRate rate) {
    const auto bent = [&](double hertz) { return std::tan(std::numbers::pi * hertz / rate.hertz); };
    const double k = bent(shelfHertz);
    const double high = std::pow(10.0, shelfDecibels / 20);
    const double middle = std::pow(high, shelfMiddle);
    const double a0 = 1 + k / shelfQ + k * k;
    sections[0].is = {(high + middle * k / shelfQ + k * k) / a0, 2 * (k * k - high) / a0,
                      (high - middle * k / shelfQ + k * k) / a0, 2 * (k * k - 1) / a0,
                      (1 - k / shelfQ + k * k) / a0};
    const double p = bent(passHertz);
    const double p0 = 1 + p / passQ + p * p;
    sections[1].is = {1, -2, 1, 2 * (p * p - 1) / p0, (1 - p / passQ + p * p) / p0};
    for (Section& section : sections)
        section.state1 = section.state2 = 0;
}

float KWeighting::next(float sample) {
    double value = sample;
    for (Section& section : sections) {
        const auto& [b0, b1, b2, a1, a2] = section.is;
        const double in = value;
        value = b0 * in + section.state1;
        section.state1 = b1 * in - a1 * value + section.state2;
        section.state2 = b2 * in - a2 * value;
    }
    return static_cast<float>(value);
}

void KWeighting::settle() {
    for (Section& section : sections) {
        if (std::abs(section.state1) < inaudible) section.state1 = 0;
        if (std::abs(section.state2) < inaudible) section.state2 = 0;
    }
}

} // namespace earwright
