#include "core/study/RecordingLocator.h"

namespace earwright {

namespace {

namespace fs = std::filesystem;

/// RecordingRef keeps UTF-8 whatever the locale.
fs::path fromUtf8(const std::string& text) {
    return fs::path(std::u8string(text.begin(), text.end()));
}

std::string toUtf8(const fs::path& path) {
    const std::u8string text = path.generic_u8string();
    return {text.begin(), text.end()};
}

bool isThere(const fs::path& path) {
    std::error_code none;
    return fs::exists(path, none);
}

} // namespace

std::string referenceTo(const fs::path& recording, const fs::path& studyFile) {
    std::error_code failure;
    const fs::path absolute = fs::absolute(recording, failure).lexically_normal();
    if (failure) return toUtf8(recording);
    if (studyFile.empty()) return toUtf8(absolute);
    const fs::path folder = fs::absolute(studyFile, failure).lexically_normal().parent_path();
    const fs::path relative = absolute.lexically_relative(folder);
    return toUtf8(failure || relative.empty() ? absolute : relative);
}

fs::path expectedPlace(const RecordingRef& recording, const fs::path& studyFile) {
    if (recording.path.empty()) return {};
    return (studyFile.parent_path() / fromUtf8(recording.path)).lexically_normal();
}

Result<fs::path> locate(const RecordingRef& recording, const fs::path& studyFile, const HashFile& hashFile) {
    const fs::path expected = expectedPlace(recording, studyFile);
    if (!expected.empty() && isThere(expected)) return expected;
    const fs::path beside = studyFile.parent_path() / expected.filename();
    if (!expected.empty() && beside != expected && isThere(beside)) {
        const Result<Recognition> answer = recognise(recording, beside, hashFile);
        if (!answer) return answer.error();
        if (*answer == Recognition::Same) return beside;
    }
    return Error{ErrorKind::NotFound,
                 expected.empty()
                     ? std::string("The study names no recording; choose one.")
                     : "The recording " + expected.string() + " is not there; choose where it is now.",
                 ""};
}

Result<Recognition> recognise(const RecordingRef& recording, const fs::path& candidate,
                              const HashFile& hashFile) {
    if (recording.contentHash.empty()) return Recognition::Unknown;
    const Result<std::string> hash = hashFile(candidate);
    if (!hash) return hash.error();
    return *hash == recording.contentHash ? Recognition::Same : Recognition::Different;
}

} // namespace earwright
