#include "core/study/DivisionEdits.h"

namespace earwright {

Study setDivision(const Study& study, const Beats& beat, BeatDivision division) {
    Study edited = study;
    edited.divisions.erase(beat);
    if (study.meters().countStart(beat) == beat && edited.divisionOf(beat) != division)
        edited.divisions[beat] = division;
    return edited;
}

} // namespace earwright
