// How the pitch of a note of known place moves while it sounds.
#pragma once

#include "core/listening/StereoViews.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// One place of a trace.
struct PitchPoint {
    /// The least clarity of a pitch that is heard, and of one that glides: its upper partials smear.
    static constexpr double clearEnough = 0.3;
    static constexpr double clearInGlide = 0.2;

    Seconds time;
    /// MIDI number with its fraction, counted from the recording's tuning.
    double midi = 0;
    /// How far the partials of that pitch stand out over what lies between them: 0 (not at all) to 1.
    double clarity = 0;
    /// Mean amplitude of the partials of that pitch; only its ratios mean anything.
    double level = 0;
};

/// Follows the pitch near an expected one, every five milliseconds.
///
/// The partials of every pitch within reach, ten cents apart, are weighed against what lies half-way between
/// them (after D. Hermes, "Measurement of pitch by subharmonic summation", JASA 83, 1988, with the
/// subharmonic at one half counted against a pitch), and the path that is heard best without needless leaps
/// is taken (A. Viterbi, 1967). So a band in other rows of partials does not pull it away, and a trill may
/// leap.
///
/// Units: a place is the centre of the window it is read from, 46 ms long (93 ms below D3).
/// Threads: any; takes about 1/50 of the span's length.
class PitchTrace {
public:
    static constexpr Seconds step{0.005};
    /// Semitones either way: a trill's other note (up to 4) and a quarter tone.
    static constexpr double reach = 4.5;

    /// Where the expected pitch or its upper partials lie out of hearing, or the span is empty, there are no
    /// points.
    static PitchTrace of(const StereoViews& views, std::size_t view, double tuningCents, Range<Seconds> span,
                         double expectedMidi);

    PitchTrace() = default;
    explicit PitchTrace(std::vector<PitchPoint> all) : list(std::move(all)) {}
    const std::vector<PitchPoint>& points() const { return list; }
    /// The points within a time.
    std::vector<PitchPoint> within(Range<Seconds> time) const;

private:
    std::vector<PitchPoint> list;
};

} // namespace earwright
