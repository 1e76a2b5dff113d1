// Where the moments of the music stand on a line.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/time/Beats.h"

#include <vector>

namespace earwright {

class LineMoments {
public:
    /// Requires: both rise.
    explicit LineMoments(std::vector<PlacedMoment> placed) : moments(std::move(placed)) {}

    /// Between two moments evenly; a place before the first or behind the last stands at it.
    double xAt(const Beats& at) const;

private:
    std::vector<PlacedMoment> moments;
};

} // namespace earwright
