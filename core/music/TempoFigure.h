// A tempo in the figure a musician reads.
#pragma once

#include <string>

namespace earwright {

/// "136", or "96.5" where the tempo is such a tenth: as fine as somebody states one. What was measured, or
/// comes from a MIDI file, which has whole microseconds a beat, is shown in whole beats. Requires: a finite
/// number of beats a minute, 0 or more. Threads: any.
std::string tempoFigure(double beatsPerMinute);

/// Whether that figure is the tempo, as finely as a MIDI file has it.
bool isTempoOfFigure(double beatsPerMinute);

} // namespace earwright
