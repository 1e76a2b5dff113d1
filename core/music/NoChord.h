// Symbols that are read without being a chord.
#pragma once

#include "core/music/ChordSymbol.h"

namespace earwright {

/// "N.C.": no chord sounds here (common practice, also written NC). It is read, and has no tones.
bool isNoChord(const ChordSymbol& symbol);

/// The symbol says something, a chord or that there is none; otherwise it is only kept as typed.
bool isRead(const ChordSymbol& symbol);

} // namespace earwright
