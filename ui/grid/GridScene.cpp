#include "ui/grid/GridScene.h"

#include <algorithm>

namespace earwright::ui {

std::vector<NoteId> GridScene::selectedNotes() const {
    std::vector<NoteId> chosen;
    if (!study) return chosen;
    for (const Note& note : study->notes) {
        const bool isAlso =
            std::find(alsoSelected.begin(), alsoSelected.end(), note.id) != alsoSelected.end();
        if (note.id == selected || isAlso) chosen.push_back(note.id);
    }
    return chosen;
}

} // namespace earwright::ui
