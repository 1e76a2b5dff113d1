// What the user chose in the example sheet's dialog.
#pragma once

#include "ui/page/ExampleSheet.h"

#include <QString>

#include <filesystem>

class QSettings;

namespace earwright::ui {

struct SheetChoices {
    ExampleWish wish;
    /// Its ending says what is written: .pdf, .svg or .png. Empty while none was named.
    std::filesystem::path file;
    /// Whether the sound of each example is written beside it.
    bool sound = false;
    /// Played ÷ original of the slower sound, 0.1 to 2; at 1 there is none.
    double speed = 0.5;
};

inline constexpr int mostBarsOfLine = 16;
inline constexpr int slowestPercent = 10;
inline constexpr int fastestPercent = 200;

/// What does not belong to a study, as it was chosen the last time: how the line is read, what is shown,
/// paper, and sound. What was kept wrongly counts as never chosen.
SheetChoices rememberedChoices(const QSettings& settings);
/// The ending of the last file: "pdf", "svg" or "png".
QString rememberedKind(const QSettings& settings);
void rememberChoices(const SheetChoices& choices, QSettings& settings);

} // namespace earwright::ui
