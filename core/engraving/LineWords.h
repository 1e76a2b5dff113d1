// What is written over a line of music as a whole: how fast it goes and how it swings.
#pragma once

#include "core/engraving/FontMetrics.h"
#include "core/engraving/SignedText.h"
#include "core/music/Meter.h"
#include "core/music/PageMarks.h"

namespace earwright {

/// "Medium blues ♩ = 132": the words, then the number where there is one; of dotted quarters in a meter that
/// is counted so.
SignedText tempoWords(const TempoMark& tempo, const Meter& meter, const FontMetrics& font);

/// "Swing" with what two even notes stand for where that can be written as notes: a triplet's quarter and
/// eighth at ratio 2, a dotted eighth and sixteenth at ratio 3 (common practice). Other ratios and swung
/// sixteenths are said in figures, even notes as "Even eighths".
SignedText swingWords(const Swing& swing, const FontMetrics& font);

} // namespace earwright
