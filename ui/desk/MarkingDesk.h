// Bars, beats, chords, phrases, choruses, sections and loose ends: what is marked on the recording, by key or
// by hand on the sheet.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/PassageDialog.h"
#include "ui/sheet/SheetWish.h"

#include <QObject>

namespace earwright::ui {

class ChorusSheetView;

/// Threads: interface only.
class MarkingDesk : public QObject {
    Q_OBJECT
public:
    MarkingDesk(DeskSession& session, ListeningDesk& listening, ChorusSheetView& sheet,
                QObject* parent = nullptr);

    /// Grants what the hand or a typed word asked for on the sheet.
    void grant(const SheetWish& wish);

    // By key, where the ear is.
    void tapBar();
    void tapBeat();
    void removeMark();
    void barOneHere();
    /// What stands from the selected stretch, or the bar where the ear is, on; of the pickup, from bar 1.
    void askForPassage(PassageDialog::Subject subject, QWidget* window);
    void nameStretch(SpanKind kind);
    void renameSpan();
    void removeSpanHere();
    void toPhrase(int step);
    void chordsHere();
    void askForForm(QWidget* window);
    void looseEndHere();
    void nextLooseEnd();
    void tickLooseEnd();

    /// Written notes that are in no phrase (WrittenRun.h): around the place in the grid where one is given,
    /// else around the ear.
    std::optional<Range<Beats>> writtenRunHere(const std::optional<Beats>& inGrid) const;
    /// Makes a phrase of them, named by its bars. Nothing without any.
    std::optional<SpanId> markWrittenRun(const std::optional<Beats>& inGrid);

    /// Makes phrases of all runs of notes played in a stretch that are in none, in one step of undo.
    void markWrittenRuns(const Range<Seconds>& stretch);

    /// The selected stretch of the sheet, or else the loop.
    std::optional<Range<Seconds>> stretch() const;
    /// A bar or beat mark so near to the ear that it is meant.
    std::optional<std::size_t> markHere(Seconds ear) const;

signals:
    /// The user chose a place by hand: the ear and the grid go there.
    void placeChosen(earwright::Seconds place);

private:
    struct Granting;

    DeskSession& session;
    ListeningDesk& listening;
    ChorusSheetView& sheet;
};

} // namespace earwright::ui
