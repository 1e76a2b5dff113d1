// What instruments play, by their names, and ranges by two notes.
#pragma once

#include "core/listening/LineRange.h"
#include "core/result/Result.h"

#include <string>

namespace earwright::batch {

/// "guitar", "tenor", … or "E2-E6". The instruments' ranges are as they sound, with the notes a soloist adds
/// above the written range (common practice). Errors: OutOfRange.
Result<LineRange> rangeNamed(const std::string& word);

} // namespace earwright::batch
