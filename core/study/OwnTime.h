// A line that comes without a recording gets a time of its own to lie in.
#pragma once

#include "core/study/Study.h"

namespace earwright {

/// Quarters a minute of a line that says nothing about its tempo (what a MIDI file without one means,
/// Standard MIDI File 1.0).
inline constexpr double usualQuartersPerMinute = 120;

/// The study with marks at its own tempo where it has none: that of its first tempo mark with a figure, or
/// the usual one. Its first bar, pickup included, begins at 0 s or later, and its length reaches two seconds
/// behind its last note, so that a sheet, a grid and a page can show it. Without notes it stays as it is.
///
/// For a study that names no recording. Threads: any.
Study withOwnTime(const Study& study);

} // namespace earwright
