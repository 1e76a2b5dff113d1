// How a note of known pitch begins: when, and whether it is picked (or tongued) or slurred.
#pragma once

#include "core/listening/StereoViews.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <optional>

namespace earwright {

/// What is asked about a beginning.
struct AttackQuestion {
    Seconds expected;
    /// Where it may lie, the neighbours' beginnings left out.
    Range<Seconds> search;
    /// Of the note and of the one before it, if that is near.
    double hertz = 440;
    std::optional<double> hertzBefore;
    /// How far beginnings usually lie from the expected place: nearer ones are preferred that much.
    Seconds usualDeviation{0.06};
};

/// What is heard of it. Levels in dB.
struct NoteAttack {
    /// Steepest rise of the note's partials.
    Seconds onset;
    /// The rise there, as a share of what it rises to: near 0 where nothing begins, 1 out of silence.
    double steepness = 0;
    /// Noise above 3 kHz at the onset over that before and after it: a pick or a tongue.
    double burst = 0;
    /// How far both notes together sink around the onset, below the quieter of what is before and after;
    /// negative or 0. A slur has no gap.
    double dip = 0;
    /// How much louder both together are after the onset than before.
    double rise = 0;
    /// The loudest the partials get in the first 120 ms.
    double loudness = 0;
};

/// How steeply the partials of a pitch rise where they rise most in a stretch (NoteAttack::steepness): a tone
/// that is struck again rises by half of what it then is and more, one that sounds on hardly, however it
/// wavers. Nought for an empty stretch. Threads: any; about a fifth of a millisecond.
double steepestRise(const StereoViews& views, std::size_t view, const Range<Seconds>& search, double hertz);

/// How far the partials of a pitch sink about a time, from 90 ms before it to 50 ms after it, below the
/// quieter of what they reach in the quarter second before and the fifth of a second after: dB, 0 or less,
/// and lowest where a soft attack or a bow's turn renews a tone. Nothing outside of a stretch is listened to.
/// Threads: any; about half a millisecond.
double sagAbout(const StereoViews& views, std::size_t view, Seconds time, const Range<Seconds>& within,
                double hertz);

/// Threads: any; about a millisecond.
NoteAttack attackOf(const StereoViews& views, std::size_t view, const AttackQuestion& question);

} // namespace earwright
