// The appearance in use, and how plain widgets take it on.
#pragma once

#include "ui/theme/Palette.h"

class QApplication;

namespace earwright::ui {

/// Gives the whole program an appearance: style, palette, lettering and the look of plain widgets. Views that
/// paint themselves ask color() each time and are repainted by the palette change.
/// Threads: interface only.
void applyTheme(QApplication& application, Appearance appearance);
Appearance currentAppearance();

/// The colour of a role in the appearance in use.
QColor color(Role role);
/// The same, let through by a share of 0 (not seen) to 1 (solid).
QColor color(Role role, double opacity);

} // namespace earwright::ui
