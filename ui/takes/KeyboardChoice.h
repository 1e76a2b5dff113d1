// Which MIDI keyboard is listened to, as a word that opens the list of them.
#pragma once

#include "core/midi/MidiKeyboard.h"

#include <QWidget>

class QMenu;

namespace earwright::ui {

class QuietButton;

/// Shows what the set function says and asks for changes. Threads: interface only.
class KeyboardChoice : public QWidget {
    Q_OBJECT
public:
    explicit KeyboardChoice(QWidget* parent = nullptr);

    void setReport(const KeyboardReport& report, const KeyboardWish& wish);
    QuietButton* button() const { return choose; }
    QString text() const;

signals:
    void wished(const earwright::KeyboardWish& wish);

private:
    void offer();
    void add(QMenu& menu, const QString& words, const KeyboardWish& meant);

    KeyboardReport shown;
    KeyboardWish wish;
    QuietButton* choose;
};

} // namespace earwright::ui
