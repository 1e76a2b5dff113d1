// How loud the partials of given pitches are, in short steps.
#pragma once

#include "core/listening/StereoViews.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <functional>
#include <vector>

namespace earwright {

/// Amplitudes every 2.5 ms over a stretch; a place is the centre of its window.
///
/// Threads: a value. Units: linear, only ratios mean anything.
struct LineLevel {
    static constexpr Seconds step{0.0025};

    Seconds first;
    std::vector<double> values;

    Seconds timeOf(std::size_t index) const { return first + step * static_cast<double>(index); }
    /// Values of the places within a time; fewer at the edges.
    std::vector<double> within(Range<Seconds> time) const;
    /// The value of the place nearest to a time; of the first or last one for times outside. 0 if empty.
    double at(Seconds time) const;
};

/// The partials of a pitch taken together (1 to 8, as far as 6 kHz), through a window of 23 ms: the sum of
/// their amplitudes to the power 0.6, as loudness adds up (S. Stevens, "The measurement of loudness", JASA
/// 27, 1955), so that no single one decides; partials below 300 Hz, where the bass is, count for less.
LineLevel levelOfPitch(const StereoViews& views, std::size_t view, Range<Seconds> time, double hertz);

/// The same along a pitch that moves: its frequency at each time, Hz.
LineLevel levelAlong(const StereoViews& views, std::size_t view, Range<Seconds> time,
                     const std::function<double(Seconds)>& hertzAt);

/// Root of the energy between 3 and 9 kHz, where the noise of a pick, a tongue or a cymbal is, through a
/// window of 12 ms.
LineLevel levelOfNoise(const StereoViews& views, std::size_t view, Range<Seconds> time);

} // namespace earwright
