#include "core/study/DivisionEdits.h"

namespace earwright {

Study setDivision(const Study& study, std::int64_t beat, BeatDivision division) {
    Study edited = study;
    if (division == BeatDivision::Two)
        edited.divisions.erase(beat);
    else
        edited.divisions[beat] = division;
    return edited;
}

} // namespace earwright
