// Opens a recording for the commands that listen to it.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"

#include <filesystem>

namespace earwright::batch {

/// Opens and reads a recording and finds its tuning. Errors: those of Recording::open.
Result<RecordingEvidence> listenTo(const std::filesystem::path& audio);

} // namespace earwright::batch
