// Choosing how a beat is divided in the note grid.
#pragma once

#include "core/study/Study.h"

namespace earwright {

/// The columns of the counted beat that begins at a place. Notes already there stay where they are. A place
/// where none begins changes nothing.
Study setDivision(const Study& study, const Beats& beat, BeatDivision division);
inline Study setDivision(const Study& study, std::int64_t beat, BeatDivision division) {
    return setDivision(study, Beats(beat), division);
}

} // namespace earwright
