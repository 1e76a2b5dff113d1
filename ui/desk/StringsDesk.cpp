#include "ui/desk/StringsDesk.h"

#include "core/engraving/Fingering.h"
#include "core/study/FingeringEdits.h"
#include "ui/desk/StringsDialog.h"
#include "ui/desk/StudyDialog.h"
#include "ui/grid/NoteGrid.h"

namespace earwright::ui {

namespace {

/// Where the page's tablature shows the notes of these bars.
Fingering fingeringOf(const Study& study, const NoteGrid& grid) {
    return fingered(study.notesIn(grid.shownBars()), study.tuning, LineTime(study));
}

} // namespace

StringsDesk::StringsDesk(DeskSession& desk, const NoteGrid& notes, MessageBar& bar, QWidget& over)
    : QObject(&over), session(desk), grid(notes), messages(bar), window(over) {}

void StringsDesk::pin(NoteId note, std::optional<int> string) {
    if (session.isOpen()) session.apply(tr("string of a note"), pinString(session.study(), note, string));
}

void StringsDesk::stepSelected(bool higher) {
    if (!session.isOpen()) return;
    const Study& study = session.study();
    const Fingering now = fingeringOf(study, grid);
    Study next = study;
    for (const NoteId id : grid.selectedNotes()) {
        const auto place = now.places.find(id);
        if (place == now.places.end()) continue;
        if (const auto string = neighbourString(*study.note(id), study.tuning, place->second.string, higher))
            next = pinString(next, id, string);
    }
    const auto first = grid.selectedNote();
    if (next.notes == study.notes)
        return messages.notice(higher ? tr("No higher string has this note.")
                                      : tr("No lower string has this note."));
    session.apply(tr("string of a note"), std::move(next));
    if (first) tellPlace(*first);
}

void StringsDesk::freeSelected() {
    if (!session.isOpen()) return;
    Study next = session.study();
    for (const NoteId id : grid.selectedNotes())
        next = pinString(next, id, std::nullopt);
    session.apply(tr("string of a note"), std::move(next));
    if (const auto first = grid.selectedNote()) tellPlace(*first);
}

void StringsDesk::tellPlace(NoteId note) const {
    const Fingering now = fingeringOf(session.study(), grid);
    const auto place = now.places.find(note);
    if (place == now.places.end()) return messages.notice(tr("This note is not on the neck."));
    messages.notice(
        tr("Played on string %1, fret %2.").arg(place->second.string + 1).arg(place->second.fret));
}

void StringsDesk::askForTuning() {
    if (!session.isOpen()) return;
    auto* dialog = new StringsDialog(
        session.study().tuning,
        [this](const StringTuning& chosen) {
            session.apply(tr("strings and tuning"), setTuning(session.study(), chosen));
        },
        &window);
    openForThisStudy(*dialog, session);
}

} // namespace earwright::ui
