// The fingerprint of a sound file, by which a study knows its recording again.
#pragma once

#include "core/result/Result.h"

#include <filesystem>
#include <stop_token>
#include <string>

namespace earwright {

/// XXH3-128 (xxHash 0.8, canonical big-endian form) of the file's bytes, as 32 lower-case hex digits.
/// Reads the whole file (about 1 GB/s from memory): call it from a background thread.
/// Errors: NotFound, Unreadable, Cancelled when the token asks for it.
Result<std::string> contentHash(const std::filesystem::path& path, const std::stop_token& stop = {});

} // namespace earwright
