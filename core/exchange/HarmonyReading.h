// A harmony of a MusicXML file as a chord symbol.
#pragma once

#include "core/music/ChordSymbol.h"

#include <optional>
#include <pugixml.hpp>

namespace earwright {

/// The symbol as it would be typed; nothing where the harmony has no root of its own or a kind that no symbol
/// here says.
std::optional<ChordSymbol> harmonySymbol(pugi::xml_node harmony);

} // namespace earwright
