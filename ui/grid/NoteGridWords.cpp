// What the note grid says in words: where its cursor is and what is there; the rest of the view is in
// NoteGrid.cpp.
#include "ui/grid/ChordRows.h"
#include "ui/grid/HelpPainter.h"
#include "ui/grid/HintText.h"
#include "ui/grid/MarkWords.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/PlayingText.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/VerdictWord.h"

#include <QStringList>

namespace earwright::ui {

namespace {

QString nameOf(const RowName& row) {
    return (row.degree.isEmpty() ? QString() : row.degree + QLatin1Char(' ')) + row.name + row.octave;
}

/// Whether each of its columns begins at a fraction that placeText() tells from its neighbours'.
bool isToldByFractions(BeatDivision division) {
    const int parts = static_cast<int>(division);
    return parts <= 6 && 12 % parts == 0;
}

} // namespace

QString NoteGrid::advice() const {
    if (!study) return tr("Open a recording, and its bars appear here to write in.");
    if (!study->beatMap.hasTempo())
        return tr("%1 at each bar line while you listen: after two of them, "
                  "the bars are here to write in.")
            .arg(howToSentence(CommandId::TapBar, keyOf));
    return tr("Put the cursor on a bar or a phrase of the sheet to write in it.");
}

QString NoteGrid::cursorText() const {
    if (!hasColumns()) return {};
    QStringList words{placeText(scene.cursor.place, study->meters())};
    if (const QString column = columnText(); !column.isEmpty()) words << column;
    words << nameOf(scene.rowAtCursor());
    return words.join(QStringLiteral(", "));
}

QString NoteGrid::columnText() const {
    const std::size_t index = scene.columns.indexAt(scene.cursor.place);
    const Beats beat = scene.columns[index].beat;
    const BeatDivision division = study->divisionOf(beat);
    if (isToldByFractions(division)) return {};
    const std::size_t first = scene.columns.indexAt(beat);
    return tr("column %1 of %2").arg(index - first + 1).arg(static_cast<int>(division));
}

QString NoteGrid::helpAtCursor() const {
    if (!hasColumns()) return {};
    const std::size_t here = scene.columns.indexAt(scene.cursor.place);
    for (const Hint& hint : scene.hints) {
        if (hint.step == HelpStep::None || columnOf(hint, scene) != here) continue;
        const ChordStretch* chord = scene.chords.at(scene.columns[here].range.begin);
        return hintText(hint, {}, {hint.heardMidi ? nameOf(rowName(chord, *hint.heardMidi)) : QString(), {}});
    }
    return {};
}

void NoteGrid::describe() {
    const Note* note = scene.selected ? scene.study->note(*scene.selected) : nullptr;
    QStringList words{cursorText()};
    if (note) {
        words << tr("note");
        if (const QString marks = marksText(*note); !marks.isEmpty()) words << marks;
        const auto chosen = static_cast<int>(scene.selectedNotes().size());
        if (chosen > 1) words << tr("%n notes selected", nullptr, chosen);
        const CheckedNote* checked = scene.check ? scene.check->note(note->id) : nullptr;
        if (checked)
            words << verdictWord(checked->verdict);
        else if (scene.unjudged.contains(note->id))
            words << tr("changed since the check");
        const auto say = [&](const MarkAnswer& answer) {
            words << tr("%1 %2").arg(markWord(answer.mark), verdictWord(answer.verdict));
        };
        std::ranges::for_each(scene.answersTo(*note), say);
        if (const auto trill = scene.trillAnswer(*note)) say(*trill);
    }
    QString now = words.join(QStringLiteral(", "));
    if (const QString help = helpAtCursor(); !help.isEmpty()) now += QStringLiteral(". ") + help;
    if (now != accessibleDescription()) setAccessibleDescription(now);
}

} // namespace earwright::ui
