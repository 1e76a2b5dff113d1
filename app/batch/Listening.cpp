#include "app/batch/Listening.h"

#include "core/sound/ContentHash.h"
#include "core/sound/Recording.h"
#include "core/study/RecordingLocator.h"
#include "core/study/StudyFile.h"

namespace earwright::batch {

Result<RecordingEvidence> listenTo(const std::filesystem::path& audio) {
    const auto recording = Recording::open(audio);
    if (!recording) return recording.error();
    return RecordingEvidence::listen(*recording);
}

Result<HeardStudy> listenToStudy(const std::filesystem::path& file) {
    const auto study = StudyFile::read(file);
    if (!study) return study.error();
    const auto audio = locate(study->recording, file, [](const auto& found) { return contentHash(found); });
    if (!audio) return audio.error();
    const auto recording = listenTo(*audio);
    if (!recording) return recording.error();
    return HeardStudy{*study, *recording};
}

} // namespace earwright::batch
