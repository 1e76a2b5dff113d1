// The range of the line as the command line has it.
#pragma once

#include "core/listening/LineRange.h"
#include "core/result/Result.h"

#include <string>

namespace earwright::batch {

/// "guitar", "tenor", … or "E2-E6", see lineInstrumentFrom(). What reaches beyond what can be heard is cut
/// off, with a word about it on stderr. Errors: OutOfRange, also where less than two notes are left.
Result<LineRange> rangeNamed(const std::string& word);

} // namespace earwright::batch
