#include "core/study/SpellingEdits.h"

#include "core/music/PitchNames.h"

#include <algorithm>

namespace earwright {

Study setSpelling(const Study& study, NoteId id, const std::optional<PitchName>& name) {
    Study edited = study;
    for (Note& note : edited.notes) {
        if (note.id != id) continue;
        const std::vector<PitchName> names = namesOf(note.pitch.midi);
        if (!name || std::ranges::find(names, *name) != names.end()) note.pitch.spelling = name;
    }
    return edited;
}

Study respell(const Study& study, NoteId id, const PitchName& byItself) {
    const Note* note = study.note(id);
    if (!note) return study;
    std::vector<PitchName> turn = namesOf(note->pitch.midi);
    std::erase(turn, byItself);
    auto next = turn.begin();
    if (note->pitch.spelling) next = std::find(turn.begin(), turn.end(), *note->pitch.spelling);
    if (note->pitch.spelling && next != turn.end()) ++next;
    return setSpelling(study, id, next == turn.end() ? std::nullopt : std::optional(*next));
}

} // namespace earwright
