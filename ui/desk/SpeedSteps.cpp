#include "ui/desk/SpeedSteps.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

const std::vector<int>& speedSteps() {
    static const std::vector<int> steps{10, 20, 35, 50, 65, 80, 100, 120, 150, 200};
    return steps;
}

const std::vector<int>& loopSpeedSteps() {
    static const std::vector<int> steps{35, 50, 65, 80, 100};
    return steps;
}

double slowerThan(double speed) {
    const long percent = std::lround(speed * 100);
    const auto& steps = speedSteps();
    const auto at = std::lower_bound(steps.begin(), steps.end(), percent);
    return (at == steps.begin() ? steps.front() : *(at - 1)) / 100.0;
}

double fasterThan(double speed) {
    const long percent = std::lround(speed * 100);
    const auto& steps = speedSteps();
    const auto above = std::upper_bound(steps.begin(), steps.end(), percent);
    return (above == steps.end() ? steps.back() : *above) / 100.0;
}

} // namespace earwright::ui
