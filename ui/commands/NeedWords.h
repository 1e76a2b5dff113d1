// Why a command is not offered now.
#pragma once

#include "ui/commands/Conditions.h"

#include <QString>

namespace earwright::ui {

/// What has to be there first, in one sentence; of several needs the one that comes first in a day's work.
/// Empty where nothing is missing.
QString needWords(Conditions missing);

} // namespace earwright::ui
