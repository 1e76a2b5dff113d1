#include "core/sound/BandFilter.h"

#include <cmath>
#include <numbers>

namespace earwright {

namespace {

using Root = std::complex<double>;

constexpr double nearNyquist = 0.45;
/// −500 dB.
constexpr double inaudible = 1e-25;

/// Pole `index` of the prototype with its edge at 1, in the upper left quarter of the plane.
Root prototypePole(int index) {
    const double angle = std::numbers::pi * (2 * index + BandFilter::order + 1) / (2 * BandFilter::order);
    return std::polar(1.0, angle);
}

/// The bilinear transform, with s in units of twice the sampling rate.
Root digital(const Root& analogue) {
    return (1.0 + analogue) / (1.0 - analogue);
}

} // namespace

BandFilter::BandFilter(const Band& wanted, SampleRate rate) {
    const Band band = wanted.playable();
    const double top = nearNyquist * rate.hertz;
    const bool lowOpen = band.lowHertz <= Band::lowestHertz;
    const bool highOpen = band.highHertz >= std::min(Band::highestHertz, top);
    const auto warped = [&](double hertz) { return std::tan(std::numbers::pi * hertz / rate.hertz); };
    if (band.lowHertz >= top)
        silent = !band.remove; // the band holds nothing at this rate
    else if (lowOpen && highOpen)
        silent = band.remove;
    else if (lowOpen)
        makeOneSided(warped(band.highHertz), band.remove);
    else if (highOpen)
        makeOneSided(warped(band.lowHertz), !band.remove);
    else
        makeTwoSided(warped(band.lowHertz), warped(band.highHertz), band.remove);
}

void BandFilter::makeOneSided(double edge, bool highPass) {
    const Shape shape = highPass ? Shape{-2, 1, -1.0} : Shape{2, 1, 1.0};
    for (int i = 0; i < order / 2; ++i)
        addSection(highPass ? edge / prototypePole(i) : edge * prototypePole(i), shape);
}

void BandFilter::makeTwoSided(double low, double high, bool stop) {
    const double width = high - low;
    const double middle = low * high;
    const double angle = 2 * std::atan(std::sqrt(middle));
    const Shape shape = stop ? Shape{-2 * std::cos(angle), 1, 1.0} : Shape{0, -1, std::polar(1.0, angle)};
    for (int i = 0; i < order / 2; ++i) {
        const Root half = 0.5 * width * (stop ? 1.0 / prototypePole(i) : prototypePole(i));
        const Root root = std::sqrt(half * half - middle);
        // Each pole of the prototype becomes two; their conjugates come from the conjugate pole.
        addSection(half + root, shape);
        addSection(half - root, shape);
    }
}

void BandFilter::addSection(const Root& analoguePole, const Shape& shape) {
    const Root pole = digital(analoguePole);
    Section& section = sections[count++];
    section.a1 = -2 * pole.real();
    section.a2 = std::norm(pole);
    const Root delay = 1.0 / shape.passes;
    const Root zeros = 1.0 + delay * (shape.b1 + delay * shape.b2);
    const Root poles = 1.0 + delay * (section.a1 + delay * section.a2);
    section.b0 = std::abs(poles) / std::abs(zeros);
    section.b1 = section.b0 * shape.b1;
    section.b2 = section.b0 * shape.b2;
}

float BandFilter::next(float sample) {
    if (silent) return 0;
    double value = sample;
    for (std::size_t i = 0; i < count; ++i) {
        Section& section = sections[i];
        const double in = value;
        value = section.b0 * in + section.state1;
        section.state1 = section.b1 * in - section.a1 * value + section.state2;
        section.state2 = section.b2 * in - section.a2 * value;
    }
    return static_cast<float>(value);
}

void BandFilter::process(std::span<float> samples) {
    for (float& sample : samples)
        sample = next(sample);
    settle();
}

void BandFilter::reset() {
    for (Section& section : sections)
        section.state1 = section.state2 = 0;
}

void BandFilter::settle() {
    for (Section& section : sections) {
        if (std::abs(section.state1) < inaudible) section.state1 = 0;
        if (std::abs(section.state2) < inaudible) section.state2 = 0;
    }
}

} // namespace earwright
