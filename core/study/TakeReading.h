// The takes of a study file, read.
#pragma once

#include "core/study/StrictJson.h"
#include "core/study/Study.h"

#include <vector>

namespace earwright {

/// Member "takes" of the whole study; files of version 1 have none. Problems go to the FirstProblem of
/// `study`.
std::vector<Take> readTakes(const StrictJson& study);

} // namespace earwright
