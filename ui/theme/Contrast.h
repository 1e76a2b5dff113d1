// How well two colours can be told apart, by the formula of the Web Content Accessibility Guidelines.
#pragma once

#include <QColor>

namespace earwright::ui {

/// Relative luminance, 0 (black) to 1 (white): WCAG 2.2, "relative luminance", sRGB. Alpha is ignored.
double relativeLuminance(const QColor& colour);
/// 1 (the same) to 21 (black on white): WCAG 2.2, "contrast ratio". The order does not matter.
double contrastRatio(const QColor& a, const QColor& b);

} // namespace earwright::ui
