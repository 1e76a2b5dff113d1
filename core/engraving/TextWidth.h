// How wide a word is, before a painter has a font for it.
#pragma once

#include <string_view>

namespace earwright {

/// Width in ems of a line of UTF-8, by the widths of Helvetica (Adobe's metrics of that face, from memory),
/// which Liberation Sans, Nimbus Sans and Arial share; letters outside ASCII count as wide. Threads: any.
double textWidth(std::string_view text);

} // namespace earwright
