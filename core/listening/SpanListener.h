// Listens to spans of a passage: what each view says about the pitch of a note there.
#pragma once

#include "core/listening/HeardSpans.h"
#include "core/listening/PairSpectrum.h"
#include "core/listening/PartialFeatures.h"
#include "core/listening/PitchRow.h"
#include "core/listening/StereoViews.h"
#include "core/listening/TuningCurve.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// One span after the other, in as many views as are asked for: left and right are transformed together, and
/// both sides together and the sides alone follow from them.
///
/// Threads: one thread at a time an object; objects are independent.
class SpanListener {
public:
    /// Both must outlive it.
    SpanListener(const StereoViews& views, const TuningCurve& curve);

    /// What each view asked for says. In silence all pitches are alike. Spans may have any length greater
    /// than zero; at least 65 ms are listened to. Requires: views that are there, each once.
    std::vector<HeardSpan> hear(const Range<Seconds>& span, const std::vector<std::size_t>& asked);

private:
    void hearPair(const Range<Seconds>& span, std::vector<SpanSpectra>& spectra);
    void hearAlone(const Range<Seconds>& span, std::size_t view, SpanSpectra& spectra);
    double centsOver(const Range<Seconds>& span) const;
    Stretch attackOf(const Range<Seconds>& span, std::size_t view) const;
    Stretch beforeOf(const Range<Seconds>& span, std::size_t view) const;
    Stretch sustainOf(const Range<Seconds>& span, std::size_t view) const;

    const StereoViews& views;
    const TuningCurve& tuning;
    PairSpectrum spectrum;
};

} // namespace earwright
