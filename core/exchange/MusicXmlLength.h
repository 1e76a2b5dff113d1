// How long a note of a MusicXML page lasts.
#pragma once

#include "core/time/Beats.h"

#include <cstdint>
#include <pugixml.hpp>

namespace earwright {

/// In quarters, of a note, a backup or a forward. Durations are whole numbers of divisions, so that programs
/// whose divisions are no multiple of three round a triplet's: such a note lasts as long as it is printed.
///
/// Requires: perQuarter is greater than zero.
Beats musicXmlLength(pugi::xml_node element, std::int64_t perQuarter);

} // namespace earwright
