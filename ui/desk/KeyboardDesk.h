// The MIDI keyboard at the desk: which one, whether it is there, and what is played on it.
#pragma once

#include "core/midi/MidiKeyboard.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <memory>

class QSettings;

namespace earwright::ui {

class KeyboardChoice;

/// Tells in one line when the keyboard goes, comes back or is plugged in. The choice is kept for the next
/// time. Threads: interface only.
class KeyboardDesk : public QObject {
    Q_OBJECT
public:
    /// Null ports: none is ever there, and no choice is shown. Requires: all outlive this.
    KeyboardDesk(std::unique_ptr<MidiPorts> ports, KeyboardChoice& choice, MessageBar& messages,
                 QSettings& settings, QObject* parent);

    /// The program was built with MIDI.
    bool isPossible() const { return keyboard != nullptr; }
    /// One is listened to.
    bool isThere() const { return !now.name.empty(); }
    /// Of the one listened to, or of the one that has gone and is waited for; empty for neither.
    QString name() const;
    const KeyboardReport& report() const { return now; }
    void use(const KeyboardWish& wish);

    /// Takes in what was played; to be called with every frame of the interface.
    void follow();

signals:
    void struck(const earwright::KeyStroke& stroke);
    /// Another keyboard is listened to, or none any more.
    void changed();

private:
    void tell(const KeyboardReport& before);
    void show();

    KeyboardChoice& choice;
    MessageBar& messages;
    QSettings& settings;
    KeyboardWish wish;
    KeyboardReport now;
    /// Null where the program knows nothing of MIDI.
    std::unique_ptr<MidiKeyboard> keyboard;
};

} // namespace earwright::ui
