// The written notes as a Standard MIDI File (Standard MIDI Files 1.0, MIDI Manufacturers Association).
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <cstdint>
#include <string>

namespace earwright {

/// A number in seven-bit groups, the highest first. Requires: value < 2^28.
std::string variableLength(std::uint32_t value);

/// The line of pageLine() as written, format 0 with one track, channel 1: title, meter, one tempo for each
/// bar that differs (from the beat marks; 120 without), chord symbols as text, and the notes with velocity
/// from loudness, accent and ghost. Time 0 is where pageBars() begins; ticks hold every place exactly. Grace
/// notes take an eighth of a beat each from their note, together no more than half of it; a trill alternates
/// every eighth of a beat. Slides and the recording's tuning are left out.
///
/// Error: OutOfRange of pageBars(). Threads: any.
Result<std::string> standardMidi(const Study& study);

} // namespace earwright
