// Rhythm tapped in on the keyboard against the record, and the choice of how it is written.
#pragma once

#include "core/study/RhythmProposal.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/TapBook.h"

#include <QObject>

#include <optional>

class QKeyEvent;

namespace earwright::ui {

class NoteGrid;

/// While tapping, any letter held down is a note at the place heard when the key went down, at the pitch of
/// the grid's cursor; all other keys do what they always do. Enter offers ways to write what was tapped: a
/// number shows one in the grid, Enter writes it as one step, Esc gives it up. Threads: interface only.
class TapDesk : public QObject {
    Q_OBJECT
public:
    TapDesk(DeskSession& session, ListeningDesk& ears, NoteGrid& grid, MessageBar& messages, QWidget& window);

    void startOrFinish();
    /// True if something was given up.
    bool giveUp();

    bool isTapping() const { return state == State::Tapping; }
    const std::vector<RhythmProposal>& proposals() const { return offered; }
    /// From 0; the one shown in the grid.
    std::size_t shown() const { return chosen; }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    enum class State { Off, Tapping, Choosing };

    bool isMine(const QKeyEvent& key) const;
    void act(const QKeyEvent& key, bool down);
    Seconds heardAt(const QKeyEvent& key);
    void start();
    void offer();
    void show(std::size_t proposal);
    void write();
    void end();
    QString describe() const;

    DeskSession& session;
    ListeningDesk& ears;
    NoteGrid& grid;
    MessageBar& messages;
    QWidget& window;
    State state = State::Off;
    TapBook book;
    std::vector<RhythmProposal> offered;
    std::size_t chosen = 0;
};

} // namespace earwright::ui
