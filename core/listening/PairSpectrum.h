// The spectra of two stretches of sound at once, and of their sum and difference.
#pragma once

#include "core/listening/AxisLines.h"
#include "core/listening/HannWindow.h"
#include "core/sound/ComplexTransform.h"

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// A stretch [start, start + length) of a sound; what lies outside the sound is silence. No sound at all is
/// silence too.
struct Stretch {
    std::span<const float> sound;
    std::ptrdiff_t start = 0;
    std::size_t length = 2;
};

/// The same spectra as LogSpectrum's of 8,192 lines, two for less than the price of one: one stretch is the
/// real and the other the imaginary part of what is transformed (both are real, so their lines come apart
/// again), in four transforms of a quarter of the length, which stay in the processor's nearest memory.
///
/// Threads: one thread at a time an object; objects are independent.
/// Units: a sine of amplitude 1 has magnitude 1; samples at analysisRate.
class PairSpectrum {
public:
    static constexpr std::size_t fftLength = 8192;

    /// cents: the recording's tuning, which shifts the axis.
    explicit PairSpectrum(double cents);

    /// Shifts the axis of the spectra from now on.
    void tune(double cents);
    /// Transforms two stretches. Requires: 2 <= length <= fftLength of both.
    void hear(const Stretch& one, const Stretch& other);
    /// What was heard last: either stretch, and half their sum and half their difference.
    LogBins first() const;
    LogBins second() const;
    LogBins middle() const;
    LogBins sides() const;

private:
    static constexpr std::size_t parts = 4;
    static constexpr std::size_t partLength = fftLength / parts;
    /// e^(−2πi·part·n / fftLength), real and imaginary parts, for parts 1 to 3.
    struct Turns {
        std::array<std::array<float, partLength>, parts - 1> x;
        std::array<std::array<float, partLength>, parts - 1> y;
    };

    static const Turns& turns();

    /// Requires: `to` reaches over the stretch.
    void cutOut(const Stretch& stretch, std::span<float> to);
    void findLines();
    LogBins onAxis(const std::vector<float>& magnitudes) const;

    std::array<ComplexTransform, parts> transforms;
    AxisLines axis;
    HannWindow window;
    std::vector<float> one;
    std::vector<float> other;
    /// The lines that bins lie between, in order, and each bin's place among them.
    std::vector<std::size_t> lines;
    std::array<std::size_t, axisBins> placeOf{};
    /// Of these lines, the parts of both stretches.
    std::vector<float> oneX;
    std::vector<float> oneY;
    std::vector<float> otherX;
    std::vector<float> otherY;
};

} // namespace earwright
