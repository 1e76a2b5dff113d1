#include "ui/commands/KeyCatcher.h"

#include <QKeyEvent>

namespace earwright::ui {

namespace {

/// Qt has a name of its own for Tab with Shift held; people and the table of commands say Shift+Tab.
Qt::Key asSpoken(int key) {
    return key == Qt::Key_Backtab ? Qt::Key_Tab : static_cast<Qt::Key>(key);
}

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

bool KeyCatcher::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        event->accept();
        return true;
    }
    if (event->type() != QEvent::KeyPress) return QLineEdit::event(event);
    const auto* press = static_cast<QKeyEvent*>(event);
    if (!isModifier(press->key())) {
        const QKeySequence key(QKeyCombination(press->modifiers(), asSpoken(press->key())));
        show(key);
        emit caught(key);
    }
    return true;
}

} // namespace earwright::ui
