#include "core/study/FingeringEdits.h"

namespace earwright {

Study setTuning(const Study& study, const StringTuning& tuning) {
    if (!isPlayable(tuning)) return study;
    Study edited = study;
    edited.tuning = tuning;
    return edited;
}

Study pinString(const Study& study, NoteId id, const std::optional<int>& string) {
    if (string && (*string < 0 || *string >= mostStrings)) return study;
    Study edited = study;
    for (Note& note : edited.notes)
        if (note.id == id) note.pinnedString = string;
    return edited;
}

} // namespace earwright
