#include "ui/grid/GridScene.h"

#include <algorithm>
#include <utility>

namespace earwright::ui {

void GridScene::show(std::shared_ptr<const Study> shown) {
    study = std::move(shown);
    meters = study ? study->meters() : MeterMap();
}

RowName GridScene::rowAtCursor() const {
    const ChordStretch* chord = chords.at(cursor.place);
    const Note* note = study && selected ? study->note(*selected) : nullptr;
    return note ? rowName(chord, note->pitch.midi, names.of(*note).name) : rowName(chord, cursor.midi);
}

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
