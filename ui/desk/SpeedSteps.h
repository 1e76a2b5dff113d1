// The speeds that keys and the loop's pill step through.
#pragma once

#include <vector>

namespace earwright::ui {

/// Per cent of the recorded speed, rising, within what the engine plays.
const std::vector<int>& speedSteps();
/// The few that are offered on the loop itself.
const std::vector<int>& loopSpeedSteps();

/// The step below a speed (played ÷ original), or the lowest one.
double slowerThan(double speed);
/// The step above a speed, or the highest one.
double fasterThan(double speed);

} // namespace earwright::ui
