// Notes that were placed freely, joined where they begin together.
#pragma once

#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <vector>

namespace earwright {

/// A note as it was played: from the first to the last moment it was held.
struct FreeNote {
    Range<Seconds> held;
    int midi = 60;
    friend bool operator==(const FreeNote&, const FreeNote&) = default;
};

/// Notes that begin together.
struct FreePlace {
    Seconds onset;
    /// Of the note held longest.
    Seconds end;
    std::vector<int> pitches;
};

/// By onset. Notes closer together than a strum of 35 ms are one place if their pitches differ.
std::vector<FreePlace> placesOf(std::vector<FreeNote> notes);

} // namespace earwright
