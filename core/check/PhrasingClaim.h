// A note of the line whose playing is asked about.
#pragma once

#include "core/listening/LineCharacter.h"
#include "core/music/Note.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright {

struct PhrasingClaim {
    /// As written, on the grid.
    Range<Seconds> range;
    /// Counted from the recording's own tuning.
    int midi = 60;
    Phrasing phrasing;
    /// Where its onset may lie, where that is not known as closely as the place says: how far a line swings
    /// shows only once it was heard. Else within 90 ms.
    std::optional<Range<Seconds>> onsetWithin = std::nullopt;
    /// Of the line, by which picked and slurred notes are told apart.
    LineCharacter character = LineCharacter::Unknown;
    friend bool operator==(const PhrasingClaim&, const PhrasingClaim&) = default;
};

} // namespace earwright
