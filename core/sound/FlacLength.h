// The length of a FLAC file that was written as a stream and doesn't give it.
#pragma once

#include "core/time/Frames.h"

#include <filesystem>
#include <optional>

namespace earwright {

/// From the last frame of the file, which is numbered (RFC 9639, 9.1). Reads the end of the file only.
/// Nothing where the file does not end with a whole frame, by the checksum of that frame.
std::optional<Frames> findFlacLength(const std::filesystem::path& path);

} // namespace earwright
