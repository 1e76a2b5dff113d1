// The range of the line as the command line has it.
#pragma once

#include "core/listening/LineRange.h"
#include "core/result/Result.h"

#include <string>

namespace earwright::batch {

/// "guitar", "tenor", … or "E2-E6", see lineInstrumentFrom(). Errors: OutOfRange.
Result<LineRange> rangeNamed(const std::string& word);

} // namespace earwright::batch
