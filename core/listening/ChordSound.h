// What sounds together under a line: how strong each of the twelve notes is in comping and bass.
#pragma once

#include "core/listening/StereoViews.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <array>
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
    /// From E2 up to C6, whatever the octave.
    NoteNames comping{};
    /// Up to F3.
    NoteNames bass{};
    /// The same in the first part of the span alone, where a walking bass says most about its chord.
    NoteNames firstBass{};
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
