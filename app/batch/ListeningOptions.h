// Where a command listens: the options --focus, --band and --range, and the word for what was chosen.
#pragma once

#include "app/batch/Arguments.h"
#include "core/listening/ListeningWish.h"
#include "core/result/Result.h"

#include <string>

namespace earwright::batch {

/// Without the options, and with all, the program chooses. Errors: OutOfRange.
Result<ListeningWish> wishIn(const Arguments& arguments);

/// "right", "all 150-3000" (hertz), "sides 200-8000".
std::string wordFor(const HeardPart& part);

} // namespace earwright::batch
