// Rhythm tapped in on the keyboard against the record, and the choice of how it is written.
#pragma once

#include "core/midi/KeyStroke.h"
#include "core/study/RhythmReader.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/KeyboardDesk.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/TapBook.h"
#include "ui/desk/TuningDesk.h"

#include <QObject>

#include <map>
#include <optional>

class QKeyEvent;

namespace earwright::ui {

class NoteGrid;

/// While tapping, any letter held down is a note at the place heard when the key went down, at the pitch of
/// the grid's cursor; so is any key of a MIDI keyboard, at its own pitch. All other keys do what they always
/// do. Enter offers ways to write what was tapped: a number shows one in the grid, left and right go
/// from beat to beat, up and down give the beat another reading, Enter writes what is shown as one step, Esc
/// gives it up. Threads: interface only.
class TapDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    TapDesk(DeskSession& session, ListeningDesk& ears, const TuningDesk& tuning, const KeyboardDesk& keyboard,
            NoteGrid& grid, MessageBar& messages, QWidget& window);

    void startOrFinish();
    /// True if something was given up.
    bool giveUp();

    /// A key of a MIDI keyboard, played to the record as it is heard, so that a transposed one is written as
    /// it was made. Nothing happens unless tapping.
    void play(const KeyStroke& stroke);

    bool isTapping() const { return state == State::Tapping; }
    const std::vector<RhythmProposal>& proposals() const { return offered; }
    /// From 0; the one shown in the grid, but for beats that were given another reading.
    std::size_t shown() const { return chosen; }
    /// Where the beat begins that up and down are about. Requires: something is proposed.
    Beats beatInHand() const { return reader->beats()[beat].beat.begin; }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    enum class State { Off, Tapping, Choosing };

    bool isMine(const QKeyEvent& key) const;
    void act(const QKeyEvent& key, bool down);
    void start();
    void invite();
    void offer();
    void show(std::size_t proposal);
    void stepBeat(int by);
    void stepReading(int by);
    void present();
    void point();
    /// Where the way chosen as a whole differs from the simplest one: changing a beat must not undo it.
    std::map<std::size_t, std::size_t> readingsOfWay() const;
    std::size_t changedBeats() const;
    void showAgain();
    std::size_t readingsOfBeat() const;
    void write();
    void end();
    QString describe() const;
    QString describeBeat() const;

    DeskSession& session;
    ListeningDesk& ears;
    const TuningDesk& tuning;
    const KeyboardDesk& keyboard;
    NoteGrid& grid;
    MessageBar& messages;
    QWidget& window;
    State state = State::Off;
    TapBook book;
    /// Keys were played that no line has.
    bool wasOutside = false;
    std::optional<RhythmReader> reader;
    std::vector<RhythmProposal> offered;
    std::size_t chosen = 0;
    RhythmProposal current;
    /// Readings the user gave to beats, by the beats' numbers.
    std::map<std::size_t, std::size_t> picked;
    std::size_t beat = 0;
};

} // namespace earwright::ui
