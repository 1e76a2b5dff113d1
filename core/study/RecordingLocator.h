// Finding the recording a study is about, also after files were moved. Threads: any; each call stands alone.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <filesystem>
#include <functional>
#include <string>

namespace earwright {

/// Computes a file's content hash as RecordingRef keeps it. Handed in, since a study knows nothing of sound
/// files.
using HashFile = std::function<Result<std::string>(const std::filesystem::path&)>;

/// Whether a file is the recording a study was made with.
enum class Recognition {
    Same,      ///< the same bytes
    Different, ///< other bytes: marks and notes may not fit
    Unknown,   ///< the study never read its recording through, so nobody can say
};

/// How a study file refers to a recording: relative to the study's folder with forward slashes, or absolute
/// where no relative path leads there or the study has no file yet (empty studyFile).
std::string referenceTo(const std::filesystem::path& recording, const std::filesystem::path& studyFile);

/// Where a study's recording should be. Empty if the study names none.
std::filesystem::path expectedPlace(const RecordingRef& recording, const std::filesystem::path& studyFile);

/// The recording's file: where it should be, or under its name beside the study if it is there and the same
/// (both files were moved together). Error: NotFound, naming the file, when the user has to be asked for it;
/// errors of hashFile. Blocks as long as hashFile does; where the file is at its place nothing is hashed.
Result<std::filesystem::path> locate(const RecordingRef& recording, const std::filesystem::path& studyFile,
                                     const HashFile& hashFile);

/// Whether a file the user picked is the recording. Errors of hashFile. Blocks as long as it does.
Result<Recognition> recognise(const RecordingRef& recording, const std::filesystem::path& candidate,
                              const HashFile& hashFile);

} // namespace earwright
