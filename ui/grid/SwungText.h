// That a phrase swings although its eighths are written evenly, in words.
#pragma once

#include "core/check/PhraseCheck.h"
#include "ui/commands/KeyWords.h"

#include <QString>

namespace earwright::ui {

/// "eighths swing 2:1 here (1.8 to 2.3); press Ctrl+I to write it": the ratio as it is heard with its spread,
/// and the key the command has now. Empty where they do not swing, or the study says already that they do.
QString swungText(const PhraseCheck& check, const KeyOf& keyOf = tableKey);

} // namespace earwright::ui
