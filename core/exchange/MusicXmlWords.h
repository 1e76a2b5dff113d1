// Words that MusicXML and the study have for the same thing, stated once for writing and reading.
#pragma once

#include "core/music/PageMarks.h"

#include <optional>
#include <string_view>

namespace earwright {

/// "ppp" to "fff", "sfz".
const char* nameOf(Dynamic level);
/// The level of a sign of MusicXML's dynamics; of those with no level of their own here ("ffff", "sf", "fz"),
/// the nearest. Nothing for fp, n and the like.
std::optional<Dynamic> dynamicNamed(std::string_view sign);

/// Quarters in a note-type-value ("whole", "eighth"); 0 for words that are none.
double quartersIn(std::string_view noteType);

} // namespace earwright
