// What sounds together under a line: how strong each of the twelve notes is in comping and bass.
#pragma once

#include "core/listening/StereoViews.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <array>
#include <cstddef>
#include <vector>

namespace earwright {

/// By note name, C first; 0 to 1, where 1 is the strongest.
using NoteNames = std::array<double, 12>;

/// A tone of the line, whose partials are left out of account while it sounds.
struct LineTone {
    Range<Seconds> range;
    /// Counted from the recording's own tuning.
    int midi = 60;
};

struct ChordSound {
    static constexpr std::size_t registerCount = 3;

    /// From A#2 to F#5, whatever the octave: the sum of the registers.
    NoteNames comping{};
    /// The same from A#2 to F#3, up to F#4 and up to F#5; a name may be stronger in one than in another.
    std::array<NoteNames, registerCount> registers{};
    /// Up to D3.
    NoteNames bass{};
    /// The same as the span begins, where a walking bass says most about its chord.
    NoteNames firstBass{};
    /// How loud the strongest bass as the span begins is beside the strongest of the comping, 1 where they
    /// are alike; nought where nothing is heard.
    double bassLoudness = 0;
};

/// Listens to a span of a passage with both sides taken together. The spectrum, its steady noise taken off
/// and the line's partials masked, is laid out in the partials of single notes by non-negative least squares
/// (M. Mauch and S. Dixon, "Approximate note transcription for the improved identification of difficult
/// chords", ISMIR 2010). The bass alone is listened for in one view of the stereo picture where the caller
/// says where it is and the recording has that view. Threads: any; a few milliseconds a second. Requires: a
/// span of more than zero.
ChordSound chordSound(const StereoViews& views, double tuningCents, Range<Seconds> span,
                      const std::vector<LineTone>& line, View bass = View::Both);

} // namespace earwright
