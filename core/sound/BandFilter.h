// Steep filters that leave a band of frequencies, or take it out.
#pragma once

#include "core/sound/Band.h"
#include "core/time/SampleRate.h"

#include <array>
#include <complex>
#include <cstddef>
#include <span>

namespace earwright {

/// A Butterworth filter of 8th order (S. Butterworth, "On the Theory of Filter Amplifiers", 1930), made a
/// band-pass or band-stop by the usual frequency transformations and digital by the bilinear transform with
/// both edges prewarped (for example Oppenheim and Schafer, "Discrete-Time Signal Processing", ch. 7), as a
/// chain of second-order sections.
///
/// −3 dB at each edge, no ripple in the band, and from there at least 48 dB an octave for a wide band, more
/// for a narrow one. Leaving and taking out a band complement each other in power. With one edge open it is a
/// high-pass or low-pass of the same order; with both open, all or nothing passes. An edge within a tenth of
/// half the sampling rate counts as open.
///
/// Threads: one at a time; a plain value without memory of its own.
/// Real time: everything, construction as well (no allocation; a hundred roots and sines).
/// Units: one channel at one sampling rate; sections are computed in double precision, so that low edges at
///   high rates stay exact.
class BandFilter {
public:
    static constexpr int order = 8;

    /// Passes everything.
    BandFilter() = default;
    /// At rest, for a band taken as Band::playable().
    BandFilter(const Band& band, SampleRate rate);

    float next(float sample);
    /// Filters in place.
    void process(std::span<float> samples);
    /// Forgets what was heard.
    void reset();
    /// Lets a tail too faint to be heard end, before it slows the processor down; to be called now and then.
    void settle();

private:
    using Root = std::complex<double>;
    /// b0 + b1 z⁻¹ + b2 z⁻² over 1 + a1 z⁻¹ + a2 z⁻², in transposed direct form II.
    struct Section {
        double b0 = 1, b1 = 0, b2 = 0, a1 = 0, a2 = 0;
        double state1 = 0, state2 = 0;
    };
    /// What the analogue zeros become: −1, 1, both, or a pair on the unit circle.
    struct Shape {
        double b1;
        double b2;
        /// Where the filter passes everything, on the unit circle.
        Root passes;
    };
    void addSection(const Root& analoguePole, const Shape& shape);
    void makeOneSided(double warped, bool highPass);
    void makeTwoSided(double low, double high, bool stop);

    std::array<Section, order> sections{};
    std::size_t count = 0;
    bool silent = false;
};

} // namespace earwright
