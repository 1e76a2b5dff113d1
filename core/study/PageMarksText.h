// The page marks of a study file, written.
#pragma once

#include "core/music/PageMarks.h"

#include <nlohmann/json.hpp>

namespace earwright {

/// Member "page" of the whole study.
nlohmann::ordered_json pageMarksToJson(const PageMarks& page);

} // namespace earwright
