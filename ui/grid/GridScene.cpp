#include "ui/grid/GridScene.h"

#include <algorithm>
#include <utility>

namespace earwright::ui {

void GridScene::show(std::shared_ptr<const Study> shown) {
    study = std::move(shown);
    meters = study ? study->meters() : MeterMap();
}

void GridScene::nameNotes() {
    if (named == study) return;
    names = study ? WrittenNames(*study) : WrittenNames();
    named = study;
}

RowName GridScene::rowAtCursor() const {
    const ChordStretch* chord = chords.at(cursor.place);
    const Note* note = study && selected ? study->note(*selected) : nullptr;
    if (!note) return rowName(chord, cursor.midi);
    // While a note is dragged it has another pitch than the one that was named.
    const PitchName name = names.of(*note).name;
    return name.pitchClass() == pitchClassOf(note->pitch.midi) ? rowName(chord, note->pitch.midi, name)
                                                               : rowName(chord, note->pitch.midi);
}

std::vector<NoteId> GridScene::selectedNotes() const {
    std::vector<NoteId> chosen;
    if (!study || (!selected && alsoSelected.empty())) return chosen;
    for (const Note& note : study->notes)
        if (isChosen(note.id)) chosen.push_back(note.id);
    return chosen;
}

std::span<const MarkAnswer> GridScene::answersTo(const Note& note) const {
    const auto asked = markAnswers.find(note.id);
    return asked == markAnswers.end() ? std::span<const MarkAnswer>() : asked->second;
}

std::optional<MarkAnswer> GridScene::trillAnswer(const Note& note) const {
    const OtherTrill* trill = check ? check->otherTrill(note.id) : nullptr;
    // A trill that is being changed has no answer any more.
    if (!trill || note.phrasing.trill != trill->written) return std::nullopt;
    if (std::ranges::find(answersTo(note), PhrasingMark::Trill, &MarkAnswer::mark) != answersTo(note).end())
        return std::nullopt;
    return MarkAnswer{PhrasingMark::Trill, trill->verdict};
}

} // namespace earwright::ui
