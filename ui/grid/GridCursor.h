// The cell of the note grid that keys act on.
#pragma once

#include "core/time/Beats.h"

namespace earwright::ui {

/// Kept as a place in the music, so that it stays where it is when a beat is divided anew.
struct GridCursor {
    Beats place;
    int midi = 67;

    friend bool operator==(const GridCursor&, const GridCursor&) = default;
};

} // namespace earwright::ui
