// A page as SVG with the music font's characters, to be looked at.
#pragma once

#include "core/engraving/EngravedPage.h"

#include <string>

namespace earwright {

/// One staff space is ten pixels. Needs the font "Bravura" where it is shown.
std::string pageAsSvg(const EngravedPage& page);

} // namespace earwright
