// Writing a whole file so that there is always either the old one or the new one, never a half.
#pragma once

#include "core/result/Result.h"

#include <filesystem>
#include <string_view>

namespace earwright {

/// Puts the bytes in place of the file, or makes it. They are written to a new file in the same folder,
/// forced to disk and renamed, so that neither a crash nor a full disk harms what was there. A link stays a
/// link; the file's permissions stay.
///
/// Error: NotWritable, with the reason; then the old file is untouched and nothing is left beside it.
///
/// Threads: any; blocks until the disk has it.
Result<Done> replaceFile(const std::filesystem::path& path, std::string_view bytes);

} // namespace earwright
