#include "core/sound/BandFilter.h"

#include <cmath>
#include <complex>
#include <gtest/gtest.h>
#include <numbers>
#include <vector>

namespace earwright {
namespace {

constexpr SampleRate rate{48000};

/// Gain at a frequency, from the response to a single sample of 1.
double gainAt(BandFilter filter, double hertz, SampleRate at = rate) {
    std::complex<double> sum = 0;
    for (int i = 0; i < 2 * at.hertz; ++i) {
        const double sample = filter.next(i == 0 ? 1.0f : 0.0f);
        sum += sample * std::polar(1.0, -2 * std::numbers::pi * hertz * i / at.hertz);
        if (i % 64 == 0) filter.settle();
    }
    return std::abs(sum);
}

double decibels(double gain) {
    return 20 * std::log10(std::max(gain, 1e-12));
}

/// Butterworth's closed form, 1/sqrt(1 + x^2n), over the band-pass and band-stop transformations, with the
/// frequencies bent as the bilinear transform bends them (Oppenheim and Schafer, ch. 7).
double closedForm(const Band& band, double hertz, SampleRate at = rate) {
    const auto bent = [&](double f) { return std::tan(std::numbers::pi * f / at.hertz); };
    const double low = bent(band.lowHertz);
    const double high = bent(band.highHertz);
    const double place = bent(hertz);
    double x = (place * place - low * high) / ((high - low) * place);
    if (band.remove) x = 1 / x;
    return 1 / std::sqrt(1 + std::pow(x, 16));
}

TEST(BandFilter, FollowsButterworthsClosedForm) {
    for (const Band& band : {Band{300, 3000}, Band{80, 160}, Band{440, 466}, Band{1000, 12000},
                             Band{300, 3000, true}, Band{80, 160, true}, Band{1000, 12000, true}})
        for (const double hertz :
             {40.0, 79.0, 120.0, 250.0, 290.0, 453.0, 600.0, 1100.0, 2900.0, 5000.0, 15000.0}) {
            const double expected = decibels(closedForm(band, hertz));
            const double found = decibels(gainAt(BandFilter(band, rate), hertz));
            if (expected > -100) {
                EXPECT_NEAR(found, expected, 0.02) << band.lowHertz << " to " << band.highHertz
                                                   << (band.remove ? " out" : "") << " at " << hertz;
            } else {
                // Samples of single precision resolve no more.
                EXPECT_LT(found, -95);
            }
        }
}

TEST(BandFilter, FallsByFortyEightDecibelsInTheFirstOctave) {
    // Tables of Butterworth attenuation: 3.01 dB at the edge, 48.16 dB an octave on for n = 8 (for example
    // A. Zverev, "Handbook of Filter Synthesis").
    const BandFilter wide({200, 3200}, rate);
    EXPECT_NEAR(decibels(gainAt(wide, 200)), -3.01, 0.01);
    EXPECT_NEAR(decibels(gainAt(wide, 3200)), -3.01, 0.01);
    EXPECT_LT(decibels(gainAt(wide, 100)), -48.1);
    EXPECT_LT(decibels(gainAt(wide, 6400)), -48.1);
    const BandFilter narrow({400, 500}, rate);
    EXPECT_LT(decibels(gainAt(narrow, 200)), -90);
    EXPECT_LT(decibels(gainAt(narrow, 1000)), -90);
}

TEST(BandFilter, IsFlatWithinTheBand) {
    // From a third of an octave inside, 10 log10(1 + 2^(−16/3)) = 0.11 dB at most.
    const BandFilter filter({200, 3200}, rate);
    for (double hertz = 200 * std::exp2(1.0 / 3); hertz < 3200 / std::exp2(1.0 / 3); hertz *= 1.07) {
        EXPECT_LT(decibels(gainAt(filter, hertz)), 0.001) << hertz;
        EXPECT_GT(decibels(gainAt(filter, hertz)), -0.12) << hertz;
    }
}

/// A low-pass of second order after R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter
/// coefficients".
double cookbookLowPass(double hertz, double edge, double q) {
    const double w0 = 2 * std::numbers::pi * edge / rate.hertz;
    const double alpha = std::sin(w0) / (2 * q);
    const double b = 1 - std::cos(w0);
    const std::complex<double> z = std::polar(1.0, -2 * std::numbers::pi * hertz / rate.hertz);
    return std::abs((b / 2 + b * z + b / 2 * z * z) /
                    (1 + alpha - 2 * std::cos(w0) * z + (1 - alpha) * z * z));
}

TEST(BandFilter, WithOneEdgeIsTheHandbooksChainOfFourSections) {
    // Quality factors of the sections of an 8th-order Butterworth filter, from the tables.
    constexpr double factors[] = {0.5098, 0.6013, 0.9000, 2.5629};
    const BandFilter filter({20, 1000}, rate);
    for (const double hertz : {50.0, 500.0, 900.0, 1000.0, 1100.0, 2000.0, 3000.0}) {
        double expected = 0;
        for (const double q : factors)
            expected += decibels(cookbookLowPass(hertz, 1000, q));
        EXPECT_NEAR(decibels(gainAt(filter, hertz)), expected, 0.02) << hertz;
    }
    const BandFilter without({20, 1000, true}, rate);
    EXPECT_LT(decibels(gainAt(without, 500)), -48.1);
    EXPECT_NEAR(decibels(gainAt(without, 2000)), 0, 0.01);
}

TEST(BandFilter, LeavesOutWhatItWouldLeave) {
    const BandFilter only({300, 900}, rate);
    const BandFilter without({300, 900, true}, rate);
    for (const double hertz : {100.0, 280.0, 300.0, 330.0, 500.0, 870.0, 900.0, 1000.0, 4000.0}) {
        const double both = std::pow(gainAt(only, hertz), 2) + std::pow(gainAt(without, hertz), 2);
        EXPECT_NEAR(both, 1, 1e-3) << hertz;
    }
    EXPECT_LT(decibels(gainAt(without, std::sqrt(300.0 * 900.0))), -100);
}

TEST(BandFilter, HoldsLowEdgesAtHighRates) {
    const SampleRate high{192000};
    const Band band{30, 60};
    for (const double hertz : {25.0, 30.0, 42.0, 60.0, 80.0})
        EXPECT_NEAR(decibels(gainAt(BandFilter(band, high), hertz, high)),
                    decibels(closedForm(band, hertz, high)), 0.02);
}

TEST(BandFilter, PassesAllOrNothingWithBothEdgesOpen) {
    BandFilter all({20, 20000}, rate);
    BandFilter nothing({20, 20000, true}, rate);
    EXPECT_EQ(all.next(0.7f), 0.7f);
    EXPECT_EQ(nothing.next(0.7f), 0.0f);
    BandFilter above({12000, 15000}, SampleRate{22050});
    EXPECT_EQ(above.next(0.7f), 0.0f) << "there is nothing of the band at this rate";
}

TEST(BandFilter, TakesEdgesInAnyOrderAndKeepsThemASemitoneApart) {
    EXPECT_EQ((Band{900, 300}.playable()), (Band{300, 900}));
    EXPECT_EQ((Band{-5, 1e9, true}.playable()), (Band{20, 20000, true}));
    EXPECT_EQ((Band{NAN, 500}.playable()), (Band{20, 500}));
    for (const double both : {20.0, 440.0, 20000.0}) {
        const Band narrow = Band{both, both}.playable();
        EXPECT_NEAR(narrow.highHertz / narrow.lowHertz, std::exp2(1.0 / 12), 1e-9);
        EXPECT_GE(narrow.lowHertz, 20);
        EXPECT_LE(narrow.highHertz, 20000);
    }
}

} // namespace
} // namespace earwright
