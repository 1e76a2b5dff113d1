#include "core/engraving/TabFrame.h"

#include <algorithm>

namespace earwright {

namespace {

/// Heights of the clefs at their own size, in spaces.
constexpr double sixStringClefHeight = 6.05;
constexpr double fourStringClefHeight = 4.05;
/// Of a meter at a staff's size, with a little room over and under it.
constexpr double meterHeight = 4.4;

} // namespace

double tabHeight(int strings) {
    return (strings - 1) * tabLineGap;
}

TabClef tabClef(int strings) {
    const bool isLarge = strings >= 5;
    const double scale = tabHeight(strings) / (isLarge ? sixStringClefHeight : fourStringClefHeight);
    // Few lines would make it too small to read, and eight would make it larger than a clef looks well.
    return {isLarge ? Smufl::SixStringTabClef : Smufl::FourStringTabClef, std::clamp(scale, 0.3, 1.4)};
}

double tabMeterScale(int strings) {
    // No smaller than is read at sight, no larger than the gaps between lines are than a staff's.
    return std::clamp(tabHeight(strings) / meterHeight, 0.7, tabLineGap);
}

} // namespace earwright
