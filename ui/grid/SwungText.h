// That a phrase swings although its eighths are written evenly, in words.
#pragma once

#include "core/check/PhraseCheck.h"

#include <QString>

namespace earwright::ui {

/// "eighths swing 2:1 here (1.8 to 2.3); Ctrl+I writes it": the ratio as it is heard with its spread, and the
/// command's own key. Empty where they do not swing, or the study says already that they do.
QString swungText(const PhraseCheck& check);

} // namespace earwright::ui
