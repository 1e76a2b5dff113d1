// Notes entered by instrument: what is played or sung into the input gives the grid's cursor its pitch.
#pragma once

#include "core/listening/NoteEar.h"
#include "core/midi/KeyStroke.h"
#include "ui/commands/KeyWords.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/KeyboardDesk.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/TakeDesk.h"
#include "ui/desk/TuningDesk.h"

#include <QObject>

#include <chrono>
#include <optional>
#include <span>

class QSettings;

namespace earwright::ui {

class NoteGrid;

/// A MIDI keyboard is taken where one is there: each key is written as it is pressed and sounds here, keys
/// struck together are one place. Without one, or where it is asked for besides, the input is opened as takes
/// do it, with the same word of caution. The input is listened to while nothing sounds here, so that neither
/// the record nor a note that is tried is taken for the musician's: not while playing or holding, and half a
/// second after. What is heard there is not sounded again.
///
/// Notes are written as typed ones are, one step to undo each. They are named by the A of the record as it is
/// played, and written as it was made where it is played transposed. Ends by Esc, behind the grid's last
/// column, and when the input goes or another study comes.
///
/// Threads: interface only.
class EntryDesk : public QObject {
    Q_OBJECT
public:
    /// Requires: all outlive this.
    EntryDesk(DeskSession& session, ListeningDesk& ears, const TuningDesk& tuning, TakeDesk& takes,
              const KeyboardDesk& keyboard, NoteGrid& grid, MessageBar& messages, QSettings& settings,
              QObject* parent);

    static constexpr int furthestOctave = 2;

    void startOrEnd();
    /// True if it was on.
    bool giveUp();
    bool isOn() const { return state != State::Off; }
    /// Octaves from what sounds in the input up to what is written, −2 to 2; kept for the next time.
    int octaves() const { return shift; }
    void setOctaves(int octaves);
    /// The same by key: told as well where it is not on, or goes by the keys of a keyboard.
    void stepOctave(int by);
    /// As its buttons name the keys for them; those of the table without it.
    void setKeys(KeyOf keys);

    /// Takes in what came from the input; to be called with every frame of the interface.
    void follow();
    /// What follow() does with sound of one channel.
    void hear(std::span<const float> samples, SampleRate rate);
    /// A key of a MIDI keyboard. Nothing happens unless it is on.
    void play(const KeyStroke& stroke);

private:
    enum class State { Off, Opening, Listening };
    struct Entered {
        /// As it sounds or as the key is called, and as it is written.
        int played = 0;
        int written = 0;
    };

    bool isSoundingHere();
    void waitForInput();
    void begin();
    void listenToInput();
    void followInput();
    void inputIsMissing(const InputReport& report);
    void end(const QString& why = {});
    void enter(double midi);
    void enterKey(const KeyStroke& stroke);
    bool isChord(const KeyStroke& stroke) const;
    void show();
    QString words() const;
    QString manner() const;
    QString withKey(const QString& name, CommandId id) const;
    QString invitation() const;
    QString heardText() const;

    DeskSession& session;
    ListeningDesk& listening;
    const TuningDesk& tuning;
    TakeDesk& takes;
    const KeyboardDesk& keyboard;
    NoteGrid& grid;
    MessageBar& messages;
    QSettings& settings;

    State state = State::Off;
    int shift = 0;
    KeyOf keyOf = tableKey;
    std::optional<NoteEar> ear;
    SampleRate earRate;
    double earA = 0;
    /// When something last sounded here.
    std::chrono::steady_clock::time_point lastSound;
    /// The input is listened to, or will be once it is open.
    bool usesInput = false;
    bool isTapped = false;
    bool isDeaf = false;
    std::optional<Entered> heard;
    /// When the key went down that wrote a note last, with which others may be a chord.
    std::optional<std::chrono::steady_clock::time_point> keyDown;
    /// That note stands in the last column.
    bool isAtEnd = false;
    QString shown;
};

} // namespace earwright::ui
