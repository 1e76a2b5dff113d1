// The middle one of some values.
#pragma once

#include <algorithm>
#include <iterator>
#include <vector>

namespace earwright {

/// The upper one of two in the middle; 0 for no values.
inline double medianOf(std::vector<double> values) {
    if (values.empty()) return 0;
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

} // namespace earwright
