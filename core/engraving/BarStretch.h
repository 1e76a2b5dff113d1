// A stretch of one bar with one thing in it, not yet cut into values.
#pragma once

#include "core/time/Beats.h"

#include <cstddef>
#include <optional>

namespace earwright {

/// In beats of the bar's own meter, from its start.
struct BarStretch {
    Beats begin;
    Beats end;
    /// Index into the line; a rest has none.
    std::optional<std::size_t> event;
};

} // namespace earwright
