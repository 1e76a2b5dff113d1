// Listening through what the ear listens through: a part of the stereo picture, a band of the spectrum.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/sound/Band.h"
#include "core/sound/Focus.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright {

/// What of a recording is listened to.
struct HeardPart {
    Focus focus = Focus::All;
    std::optional<Band> band;

    bool isEverything() const { return focus == Focus::All && !band; }
    friend bool operator==(const HeardPart&, const HeardPart&) = default;
};

/// A part of a sound, from half a second before a passage to half a second after it. All of the stereo
/// picture stays in stereo; one channel, the sides (half the difference) or the centre are mono. The centre
/// is what both channels have in common (CentreExtraction), which keeps out more of the sides than the half
/// sum that is heard. The band is filtered forward and backward, so that nothing is late: BandFilter's
/// attenuation twice over, −6 dB at the edges. Requires: the sound reaches as far, where the recording does.
/// Any thread; a few milliseconds for each second.
AnalysisSound heardPart(const AnalysisSound& sound, Range<Seconds> passage, const HeardPart& part);

} // namespace earwright
