// What tablature is before any number: how far its lines reach, its clef, and how large its meter is.
#pragma once

#include "core/engraving/Smufl.h"

namespace earwright {

/// In staff spaces, between two lines.
inline constexpr double tabLineGap = 1.5;
/// From the left end of the lines to the clef.
inline constexpr double tabClefLeft = 0.7;

/// From the first line to the last.
double tabHeight(int strings);

/// Its origin stands at half the height.
struct TabClef {
    Smufl glyph = Smufl::SixStringTabClef;
    double scale = 1;
};
TabClef tabClef(int strings);

/// How large the digits of a meter are that stands on the tablature, where a staff's are 1: as far apart as
/// the lines, as far as those have room for two.
double tabMeterScale(int strings);

} // namespace earwright
