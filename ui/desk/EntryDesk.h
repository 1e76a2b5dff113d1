// Notes entered by instrument: what is played or sung into the input gives the grid's cursor its pitch.
#pragma once

#include "core/listening/NoteEar.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/TakeDesk.h"

#include <QObject>

#include <chrono>
#include <optional>
#include <span>

class QSettings;

namespace earwright::ui {

class NoteGrid;

/// Opens the input as takes do, with the same word of caution. It listens while nothing sounds here, so that
/// neither the record nor a note that is tried is taken for the musician's: not while playing or holding, and
/// half a second after. What is heard is written as typed notes are, one step to undo each, and is not
/// sounded again. Ends by Esc, behind the grid's last column, and when the input goes or another study comes.
///
/// Threads: interface only.
class EntryDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    EntryDesk(DeskSession& session, ListeningDesk& ears, TakeDesk& takes, NoteGrid& grid,
              MessageBar& messages, QSettings& settings, QObject* parent);

    static constexpr int furthestOctave = 2;

    void startOrEnd();
    /// True if it was on.
    bool giveUp();
    bool isOn() const { return state != State::Off; }
    /// Octaves from what sounds up to what is written, −2 to 2; kept for the next time.
    int octaves() const { return shift; }
    void setOctaves(int octaves);

    /// Takes in what came from the input; to be called with every frame of the interface.
    void follow();
    /// What follow() does with sound of one channel.
    void hear(std::span<const float> samples, SampleRate rate);

private:
    enum class State { Off, Opening, Listening };

    bool isSoundingHere();
    void waitForInput();
    void begin();
    void end(const QString& why = {});
    void enter(double midi);
    void show();
    QString words() const;
    QString heardText() const;

    DeskSession& session;
    ListeningDesk& listening;
    TakeDesk& takes;
    NoteGrid& grid;
    MessageBar& messages;
    QSettings& settings;

    State state = State::Off;
    int shift = 0;
    std::optional<NoteEar> ear;
    SampleRate earRate;
    /// When something last sounded here.
    std::chrono::steady_clock::time_point lastSound;
    std::chrono::steady_clock::time_point closedSince;
    bool isDeaf = false;
    /// The semitone heard last, as it sounds.
    std::optional<int> heard;
    QString shown;
};

} // namespace earwright::ui
