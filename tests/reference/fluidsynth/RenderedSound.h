// MIDI rendered by fluidsynth with the FluidR3 sound font: sounds that were not made here.
#pragma once

#include "core/listening/RecordingEvidence.h"
#include "tests/reference/fluidsynth/MidiFile.h"

namespace earwright::tests {

/// General MIDI 1 program numbers, counted from 0.
inline constexpr int nylonGuitar = 24;
inline constexpr int steelGuitar = 25;
inline constexpr int jazzGuitar = 26;
inline constexpr int cleanGuitar = 27;
inline constexpr int acousticBass = 32;
inline constexpr int trumpet = 56;
inline constexpr int altoSaxophone = 65;
inline constexpr int piano = 0;
inline constexpr int drumChannel = 9;
inline constexpr int rideCymbal = 51;

/// Renders, opens and listens; ends the test program where fluidsynth or its font is missing.
RecordingEvidence rendered(const MidiFile& midi);

} // namespace earwright::tests
