#include "ui/desk/KeyboardDesk.h"

#include "ui/takes/KeyboardChoice.h"

#include <QSettings>

#include <utility>

namespace earwright::ui {

namespace {

const auto subject = QStringLiteral("keyboard");
const auto wantedKey = QStringLiteral("keyboard/wanted");
const auto nameKey = QStringLiteral("keyboard/name");

KeyboardWish remembered(const QSettings& settings) {
    return {settings.value(wantedKey, true).toBool(), settings.value(nameKey).toString().toStdString()};
}

} // namespace

KeyboardDesk::KeyboardDesk(std::unique_ptr<MidiPorts> ports, KeyboardChoice& shown, MessageBar& bar,
                           QSettings& store, QObject* parent)
    : QObject(parent), choice(shown), messages(bar), settings(store), wish(remembered(store)) {
    choice.setVisible(ports != nullptr);
    if (!ports) return;
    keyboard = std::make_unique<MidiKeyboard>(std::move(ports), wish);
    connect(&choice, &KeyboardChoice::wished, this, &KeyboardDesk::use);
    show();
}

QString KeyboardDesk::name() const {
    return QString::fromStdString(now.name.empty() ? now.lost : now.name);
}

void KeyboardDesk::use(const KeyboardWish& chosen) {
    wish = chosen;
    settings.setValue(wantedKey, wish.wanted);
    settings.setValue(nameKey, QString::fromStdString(wish.name));
    if (keyboard) keyboard->use(wish);
    show();
}

void KeyboardDesk::follow() {
    if (!keyboard) return;
    for (const KeyStroke& stroke : keyboard->take())
        emit struck(stroke);
    KeyboardReport report = keyboard->report();
    if (report == now) return;
    const KeyboardReport before = std::exchange(now, std::move(report));
    tell(before);
    show();
    if (before.name != now.name || before.lost != now.lost) emit changed();
}

void KeyboardDesk::tell(const KeyboardReport& before) {
    const auto say = [this](const QString& words) {
        messages.say(subject, MessageBar::Tone::Notice, words.arg(name()));
    };
    if (!now.lost.empty() && now.lost != before.lost)
        return say(tr("The MIDI keyboard %1 has gone. It is taken again when it comes back."));
    // What is there from the start is nothing new.
    if (before.isKnown && !now.name.empty() && now.name != before.name)
        return say(before.lost == now.name ? tr("The MIDI keyboard %1 is there again.")
                                           : tr("Notes can be played in on the MIDI keyboard %1."));
    if (now.trouble != before.trouble && !now.trouble.empty() && !now.choices.empty())
        messages.say(subject, MessageBar::Tone::Notice, QString::fromStdString(now.trouble));
}

void KeyboardDesk::show() {
    choice.setReport(now, wish);
}

} // namespace earwright::ui
