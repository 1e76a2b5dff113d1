// What is written, as a first guess at what was played.
#pragma once

#include "core/listening/PitchRow.h"

namespace earwright {

/// Log probability of each pitch to be what was played where one is written, before listening: most notes are
/// right, and a wrong one is rather a semitone, a tone or an octave off, then a third, fourth or fifth, than
/// anything else (common practice of transcription; no counts are known to us, so the shares are round).
/// Requires: lowestHeardMidi <= writtenMidi <= highestHeardMidi.
PitchRow playedWhereWritten(int writtenMidi);

} // namespace earwright
