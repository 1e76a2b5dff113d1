// XML from elsewhere as UTF-8, whatever it was written in.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace earwright {

/// The text in UTF-8, found out as XML 1.0 (W3C, fifth edition, appendix F) says: by a byte order mark, by
/// how "<" is written, or by the encoding that the declaration names. Nothing where it names one that is not
/// known here or the bytes are not of it. Memory and time grow with the text only. Threads: any.
std::optional<std::string> utf8Xml(std::string_view bytes);

} // namespace earwright
