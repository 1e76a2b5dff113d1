#include "core/listening/QuickLog.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace earwright {
namespace {

// The standard library's functions in double precision are the reference; 3e-7 is two and a half units in the
// last place of a float.
constexpr double tolerance = 3e-7;

TEST(QuickLog, AgreesWithTheStandardLibraryOverAllMagnitudes) {
    for (double x = 1.2e-38; x < 3e38; x *= 1.0007) {
        const auto number = static_cast<float>(x);
        const double exact = std::log(static_cast<double>(number));
        EXPECT_NEAR(quickLog(number), exact, tolerance * std::max(1.0, std::abs(exact))) << number;
    }
}

TEST(QuickLog, IsExactAtOne) {
    EXPECT_EQ(quickLog(1), 0);
}

TEST(QuickExp, AgreesWithTheStandardLibraryOverItsRange) {
    for (double x = -86.9; x < 87.9; x += 0.0031) {
        const auto number = static_cast<float>(x);
        const double exact = std::exp(static_cast<double>(number));
        EXPECT_NEAR(quickExp(number) / exact, 1, tolerance) << number;
    }
    EXPECT_EQ(quickExp(0), 1);
}

} // namespace
} // namespace earwright
