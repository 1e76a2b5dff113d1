// Which notes of a bar hang together on beams.
#pragma once

#include "core/engraving/PageBars.h"

#include <string>
#include <vector>

namespace earwright {

/// For each piece of the bar, its beams from the outermost inwards, in the words of MusicXML 4.0's beam-value
/// ("begin", "continue", "end", "forward hook", "backward hook"); none for notes with flags, longer ones and
/// rests. A beam joins the notes of one pulse, and no rest (common practice). Threads: any.
std::vector<std::vector<std::string>> pageBeams(const PageBar& bar);

} // namespace earwright
