// Whether a sound file holds as much as it promises, or was cut short on its way here.
#pragma once

#include "core/result/Error.h"

#include <filesystem>

namespace earwright {

/// Whether the file ends before the sizes in its RIFF or AIFF header or its last Ogg page say, as an
/// interrupted copy or download does. Sizes of 0 and above 2 GiB − 64 KiB come from writers that could not
/// go back and fill them in, and are not held against the file. Other kinds of file: false.
bool containerIsCut(const std::filesystem::path& path);

/// The error for such a file. It is refused because what is missing would be silence that nobody explains.
Error cutShort(const std::filesystem::path& path);

} // namespace earwright
