// A harmony of a MusicXML file as a chord symbol.
#pragma once

#include "core/exchange/MusicXmlTransposition.h"
#include "core/music/ChordSymbol.h"

#include <optional>
#include <pugixml.hpp>

namespace earwright {

/// The symbol as it would be typed, as it sounds; nothing where the harmony has no root of its own. Of a kind
/// that no chord here says it is a namedSymbol().
std::optional<ChordSymbol> harmonySymbol(pugi::xml_node harmony, const Transposition& transposition = {});

} // namespace earwright
