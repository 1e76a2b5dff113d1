// Sound in MP4, Matroska and raw AAC files: a part of the build that can be left out.
#pragma once

#include "core/sound/SoundFile.h"

#include <filesystem>
#include <memory>
#include <stop_token>

namespace earwright {

/// Whether this build can open such files (the CMake option EARWRIGHT_FFMPEG).
bool canOpenContainers();

/// Opens the sound of a file for which isMediaContainer() is true. Errors: Malformed (damaged, cut short, no
/// sound), Unsupported (a coding without decoder, or this build has no such part), Cancelled.
Result<std::unique_ptr<SoundFile>> openContainer(const std::filesystem::path& path,
                                                 const std::stop_token& stop);

} // namespace earwright
