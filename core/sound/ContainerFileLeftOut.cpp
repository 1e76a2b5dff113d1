// Built in place of LibavFile.cpp where the FFmpeg libraries are left out.
#include "core/sound/ContainerFile.h"

namespace earwright {

bool canOpenContainers() {
    return false;
}

Result<std::unique_ptr<SoundFile>> openContainer(const std::filesystem::path& path, const std::stop_token&) {
    return Error{ErrorKind::Unsupported,
                 path.string() +
                     " is an AAC, MP4 or Matroska file, which this build of Earwright cannot open: "
                     "it was made without the FFmpeg libraries. Save the sound as WAV, FLAC or MP3.",
                 ""};
}

} // namespace earwright
