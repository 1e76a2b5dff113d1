// What the user says about where to listen.
#pragma once

#include "core/listening/HeardPart.h"

namespace earwright {

/// Threads: a plain value.
struct ListeningWish {
    /// The focus and band to listen in; everything leaves the choice to the program.
    HeardPart part;
    friend bool operator==(const ListeningWish&, const ListeningWish&) = default;
};

} // namespace earwright
