// The record of what was found, read from a study file.
#pragma once

#include "core/study/EarRecord.h"
#include "core/study/StrictJson.h"

namespace earwright {

/// Member "earRecord". What newer files say of a place (mistake, note, found notes) may be absent.
EarRecord readEarRecord(const StrictJson& json);

} // namespace earwright
