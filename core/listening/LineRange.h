// The pitches a line can have: what its instrument plays.
#pragma once

#include "core/listening/LogAxis.h"

#include <algorithm>

namespace earwright {

/// Both ends belong to it. Threads: a plain value. Units: MIDI numbers counted from the recording's tuning.
struct LineRange {
    int lowestMidi = lowestHeardMidi;
    int highestMidi = highestHeardMidi;

    bool isEverything() const { return lowestMidi <= lowestHeardMidi && highestMidi >= highestHeardMidi; }
    bool contains(int midi) const { return midi >= lowestMidi && midi <= highestMidi; }
    friend bool operator==(const LineRange&, const LineRange&) = default;
};

} // namespace earwright
