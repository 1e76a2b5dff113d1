// Signs of a MusicXML part that a line here does not have.
#pragma once

#include "core/exchange/Imported.h"

#include <pugixml.hpp>

namespace earwright {

/// Says of each kind of sign in the part that nothing here can hold that it was left out.
void nameLeftOutSigns(Imported& imported, pugi::xml_node part);

} // namespace earwright
