// Text in other encodings as UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace earwright {

/// The bytes in UTF-8; nothing where they are not of that encoding, or it is not known here. The encoding by
/// the name iconv knows it by (POSIX), "UTF-8" as well, which only looks whether they are. Threads: any.
std::optional<std::string> inUtf8(std::string_view bytes, const std::string& encoding);

} // namespace earwright
