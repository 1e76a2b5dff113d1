// The answers of a check, in the user's words.
#pragma once

#include "core/check/Verdict.h"

#include <QString>

namespace earwright::ui {

/// "supported", "unclear" or "contradicted", as within a sentence. Threads: any.
QString verdictWord(Verdict verdict);

} // namespace earwright::ui
