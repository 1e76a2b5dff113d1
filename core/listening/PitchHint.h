// How strongly the recording supports each pitch at a place: the pitch hint.
#pragma once

#include "core/listening/PassageEvidence.h"
#include "core/listening/PitchRow.h"

#include <vector>

namespace earwright {

/// The hint for one span.
struct PitchHint {
    /// Log probability of each pitch, from the span's own evidence and its neighbours'.
    PitchRow evidence;
    /// MIDI number counted from the recording's tuning.
    int bestMidi = 60;
    /// Probability that bestMidi is what was played, 0 to 1; 0 in silence.
    double confidence = 0;
    /// Where in the recording it was listened for mostly.
    HeardPart listened;
};

/// One hint for each span, in the given order; the other spans inform it, as its neighbours and by what the
/// line they make sounds like (colourOf). Spans may come in any order.
std::vector<PitchHint> pitchHints(const PassageEvidence& evidence, const std::vector<Range<Seconds>>& spans);

/// The hint for one place, by the sound of the line it belongs to: `line` says where notes of that line lie,
/// in any order, and nothing else of them counts. Without any the place is heard by itself.
PitchHint pitchHintAt(const Range<Seconds>& place, const PassageEvidence& evidence,
                      const std::vector<Range<Seconds>>& line);

/// How clear a line is, from its hints: the mean log of their confidence, 0 (certain) to −4.6; 0 without
/// hints.
double clarityOf(const std::vector<PitchHint>& hints);

} // namespace earwright
