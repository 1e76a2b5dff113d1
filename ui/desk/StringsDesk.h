// On which strings the line is played, as the user wants it: the instrument's tuning, and notes pinned to a
// string.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <optional>
#include <vector>

class QWidget;

namespace earwright::ui {

class NoteGrid;

/// Every wish is one step to undo. Threads: interface only.
class StringsDesk : public QObject {
    Q_OBJECT
public:
    StringsDesk(DeskSession& session, const NoteGrid& grid, MessageBar& messages, QWidget& window);

    /// To a string, from 0, or to where the fingering finds it best.
    void pin(NoteId note, std::optional<int> string);
    /// Each selected note goes to the next string that has its pitch, from where it is played now.
    void stepSelected(bool higher);
    /// The selected notes go where they lie best.
    void freeSelected();
    void askForTuning();

private:
    void tellPlace(NoteId note) const;

    DeskSession& session;
    const NoteGrid& grid;
    MessageBar& messages;
    QWidget& window;
};

} // namespace earwright::ui
