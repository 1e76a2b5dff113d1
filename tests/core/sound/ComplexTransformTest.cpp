#include "core/sound/ComplexTransform.h"

#include <cmath>
#include <complex>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

TEST(ComplexTransform, IsTheDiscreteFourierTransformByItsDefinition) {
    constexpr std::size_t length = 16;
    ComplexTransform transform(length);
    std::vector<std::complex<double>> x;
    for (std::size_t n = 0; n < length; ++n) {
        x.emplace_back(std::sin(1.7 * static_cast<double>(n * n)), std::cos(2.9 * static_cast<double>(n)));
        transform.timeX()[n] = static_cast<float>(x.back().real());
        transform.timeY()[n] = static_cast<float>(x.back().imag());
    }
    transform.forward();
    for (std::size_t k = 0; k < length; ++k) {
        std::complex<double> sum;
        for (std::size_t n = 0; n < length; ++n)
            sum += x[n] * std::polar(1.0, -2 * std::numbers::pi * static_cast<double>(k * n) / length);
        const std::complex<double> line(transform.spectrumX()[k], transform.spectrumY()[k]);
        EXPECT_NEAR(std::abs(line - sum), 0, 1e-5) << k;
    }
}

} // namespace
} // namespace earwright
