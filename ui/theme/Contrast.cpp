#include "ui/theme/Contrast.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

} // namespace

double relativeLuminance(const QColor& colour) {
    const QColor rgb = colour.toRgb();
    return 0.2126 * linear(rgb.red() / 255.0) + 0.7152 * linear(rgb.green() / 255.0) +
           0.0722 * linear(rgb.blue() / 255.0);
}

double contrastRatio(const QColor& a, const QColor& b) {
    const auto [darker, lighter] = std::minmax({relativeLuminance(a), relativeLuminance(b)});
    return (lighter + 0.05) / (darker + 0.05);
}

} // namespace earwright::ui
