#include "ui/commands/KeyCatcher.h"

#include "ui/commands/KeySpelling.h"

#include <QKeyEvent>
#include <QShortcut>

#include <algorithm>

namespace earwright::ui {

namespace {

bool isModifier(int key) {
    return key == Qt::Key_Shift || key == Qt::Key_Control || key == Qt::Key_Alt || key == Qt::Key_Meta ||
           key == Qt::Key_AltGr || key == Qt::Key_unknown || key == 0;
}

} // namespace

KeyCatcher::KeyCatcher(QWidget* parent) : QLineEdit(parent) {
    setReadOnly(true);
    setFocusPolicy(Qt::ClickFocus);
    setContextMenuPolicy(Qt::NoContextMenu);
}

void KeyCatcher::show(const QKeySequence& key) {
    setText(key.toString(QKeySequence::NativeText));
}

void KeyCatcher::setKnown(const std::vector<QKeySequence>& keys) {
    for (QShortcut* shortcut : known) {
        shortcut->setEnabled(false);
        shortcut->deleteLater(); // it may just be telling what was caught
    }
    known.clear();
    for (const QKeySequence& key : keys) {
        auto* shortcut = new QShortcut(key, this);
        shortcut->setContext(Qt::WidgetShortcut);
        connect(shortcut, &QShortcut::activated, this, [this, key] { take(key); });
        connect(shortcut, &QShortcut::activatedAmbiguously, this, [this, key] { take(key); });
        known.push_back(shortcut);
    }
}

void KeyCatcher::take(const QKeySequence& key) {
    show(key);
    emit caught(key);
}

bool KeyCatcher::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        event->ignore(); // known keys come as shortcuts, all others as keys
        return true;
    }
    if (event->type() != QEvent::KeyPress) return QLineEdit::event(event);
    const auto* press = static_cast<QKeyEvent*>(event);
    if (!isModifier(press->key())) take(named(spellingsOf(*press)));
    return true;
}

QKeySequence KeyCatcher::named(const std::vector<QKeySequence>& spellings) const {
    const auto isKnown = [this](const QKeySequence& key) {
        return std::any_of(known.begin(), known.end(),
                           [&](const QShortcut* shortcut) { return shortcut->key() == key; });
    };
    const auto found = std::find_if(spellings.begin(), spellings.end(), isKnown);
    return found == spellings.end() ? spellings.front() : *found;
}

} // namespace earwright::ui
