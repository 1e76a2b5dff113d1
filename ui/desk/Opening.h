// Opening a recording or a study: the part that touches the disk, away from the interface thread.
#pragma once

#include "core/result/Result.h"
#include "core/sound/Recording.h"
#include "core/study/Recovery.h"
#include "core/study/Study.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <stop_token>

namespace earwright::ui {

/// What was opened.
struct Opened {
    Study study;
    /// Where it is saved; empty for a study just begun.
    std::filesystem::path studyFile;
    /// None where the recording could not be found or read; `trouble` says why.
    std::shared_ptr<Recording> recording;
    std::optional<Error> trouble;
    /// Newer work on this study that a crash left behind.
    std::optional<LostWork> lostWork;
    /// The study came from such a copy, so it is not what is on disk.
    bool recovered = false;
    /// The study was made of a file from elsewhere and is nowhere on disk.
    bool isImported = false;
};

/// True for names that end as study files do.
bool isStudyFile(const std::filesystem::path& path);

/// A recording becomes a new study named after it, a study is read and its recording looked for. Errors name
/// the file and the reason. Blocks: reads, and hashes where a recording has moved.
Result<Opened> openFile(const std::filesystem::path& path, const std::stop_token& stop);
/// What a crash left behind, as work on the study file it belongs to.
Result<Opened> openLostWork(const LostWork& lost, const std::stop_token& stop);

/// A file the user picked as the study's recording.
struct PickedRecording {
    std::shared_ptr<Recording> recording;
    std::string contentHash;
    /// False where its bytes are not those the study was made with; true too where nobody can say.
    bool recognised = true;
};
Result<PickedRecording> openPicked(const std::filesystem::path& path, const RecordingRef& wanted,
                                   const std::stop_token& stop);

} // namespace earwright::ui
