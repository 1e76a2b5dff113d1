// Learns what a line sounds like from the notes of it that are sure.
#pragma once

#include "core/listening/LineColour.h"
#include "core/listening/MelodyPrior.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/ViewBlend.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// The colour of the line that spans belong to. Spans whose pitch is sure, from what is heard there and from
/// their neighbours, are taken for right, and the colour is what makes such pitches more probable there; with
/// it others become sure (self-training: Scudder 1965, Probability of error of some adaptive
/// pattern-recognition machines). Nothing that anybody wrote takes part in it.
///
/// It stays the plainer the fewer spans there are. Of many, some are learned from, evenly spread.
/// `evidence`: heard as of any line. `onsets`: the blend's. Requires: spans in order of time.
LineColour colourOf(const PassageEvidence& evidence, const ViewBlend& blend, const OnsetTrack& onsets,
                    const std::vector<Range<Seconds>>& spans, SpanOf kind);

} // namespace earwright
