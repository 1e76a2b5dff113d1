// What a page with tablature says of its strings before the music.
#pragma once

#include "core/music/StringTuning.h"

#include <string>

namespace earwright {

/// "Strings D2 A2 D3 G3 B3 E4 · Capo at fret 3": open strings without the capo, from the lowest line of
/// tablature up; only what differs from a guitar in the usual tuning, which goes without saying (common
/// practice). Signs as `signedText` draws them. Threads: any.
std::string tuningWords(const StringTuning& tuning);

} // namespace earwright
