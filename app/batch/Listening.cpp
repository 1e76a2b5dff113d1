#include "app/batch/Listening.h"

#include "core/sound/Recording.h"

namespace earwright::batch {

Result<RecordingEvidence> listenTo(const std::filesystem::path& audio) {
    const auto recording = Recording::open(audio);
    if (!recording) return recording.error();
    return RecordingEvidence::listen(*recording);
}

} // namespace earwright::batch
