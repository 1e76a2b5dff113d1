// Opens a recording for the commands that listen to it.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>

namespace earwright::batch {

/// Opens and reads a recording and finds its tuning. Errors: those of Recording::open.
Result<RecordingEvidence> listenTo(const std::filesystem::path& audio);

struct HeardStudy {
    Study study;
    RecordingEvidence recording;
};

/// Reads a study and listens to its recording, found as the desk finds it. Errors: those of both.
Result<HeardStudy> listenToStudy(const std::filesystem::path& file);

} // namespace earwright::batch
