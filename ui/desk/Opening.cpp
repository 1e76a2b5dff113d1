#include "ui/desk/Opening.h"

#include "core/sound/ContentHash.h"
#include "core/study/OwnTime.h"
#include "core/study/RecordingLocator.h"
#include "core/study/StudyFile.h"

namespace earwright::ui {

namespace {

namespace fs = std::filesystem;

HashFile hashing(const std::stop_token& stop) {
    return [stop](const fs::path& path) { return contentHash(path, stop); };
}

Opened begun(std::shared_ptr<Recording> recording) {
    Opened opened;
    opened.study.title = recording->path().stem().string();
    opened.study.recording = {referenceTo(recording->path(), {}), "", recording->rate(), recording->length()};
    opened.recording = std::move(recording);
    return opened;
}

void findRecording(Opened& opened, const std::stop_token& stop) {
    if (opened.study.recording.path.empty()) opened.study = withOwnTime(opened.study);
    const auto place = locate(opened.study.recording, opened.studyFile, hashing(stop));
    if (!place) {
        opened.trouble = place.error();
        return;
    }
    auto recording = Recording::open(*place, stop);
    if (recording)
        opened.recording = *std::move(recording);
    else
        opened.trouble = recording.error();
}

} // namespace

bool isStudyFile(const fs::path& path) {
    return path.extension() == ".study" || path.extension() == ".recovery";
}

Result<Opened> openFile(const fs::path& path, const std::stop_token& stop) {
    if (!isStudyFile(path)) {
        auto recording = Recording::open(fs::absolute(path), stop);
        if (!recording) return recording.error();
        return begun(*std::move(recording));
    }
    auto study = StudyFile::read(path);
    if (!study) return study.error();
    Opened opened;
    opened.study = *std::move(study);
    opened.studyFile = fs::absolute(path);
    opened.lostWork = Recovery::lostWorkOf(opened.studyFile);
    findRecording(opened, stop);
    return opened;
}

Result<Opened> openLostWork(const LostWork& lost, const std::stop_token& stop) {
    auto study = StudyFile::read(lost.copy);
    if (!study) return study.error();
    Opened opened;
    opened.study = *std::move(study);
    opened.studyFile = lost.study;
    opened.recovered = true;
    findRecording(opened, stop);
    return opened;
}

Result<PickedRecording> openPicked(const fs::path& path, const RecordingRef& wanted,
                                   const std::stop_token& stop) {
    auto recording = Recording::open(fs::absolute(path), stop);
    if (!recording) return recording.error();
    const auto hash = contentHash(path, stop);
    if (!hash) return hash.error();
    const bool recognised = wanted.contentHash.empty() || wanted.contentHash == *hash;
    return PickedRecording{*std::move(recording), *hash, recognised};
}

} // namespace earwright::ui
