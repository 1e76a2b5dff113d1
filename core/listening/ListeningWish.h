// What the user says about where to listen, and for what.
#pragma once

#include "core/listening/HeardPart.h"
#include "core/listening/LineRange.h"

namespace earwright {

/// Threads: a plain value.
struct ListeningWish {
    /// The focus and band to listen in; everything leaves the choice to the program.
    HeardPart part;
    /// What the line's instrument plays: nothing else is heard as the line.
    LineRange line;
    friend bool operator==(const ListeningWish&, const ListeningWish&) = default;
};

} // namespace earwright
