#include "ui/desk/TypingGuard.h"

#include <QAbstractButton>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>

namespace earwright::ui {

namespace {

bool takesWords(const QObject* object) {
    return qobject_cast<const QLineEdit*>(object) || qobject_cast<const QPlainTextEdit*>(object) ||
           qobject_cast<const QAbstractSpinBox*>(object);
}

bool isArrow(int key) {
    return key == Qt::Key_Left || key == Qt::Key_Right || key == Qt::Key_Up || key == Qt::Key_Down;
}

bool belongsToField(const QObject* object, const QKeyEvent& key) {
    const bool plain = !(key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (takesWords(object)) return plain;
    if (qobject_cast<const QAbstractButton*>(object)) return plain && key.key() == Qt::Key_Space;
    if (qobject_cast<const QAbstractSlider*>(object)) return plain && isArrow(key.key());
    if (qobject_cast<const QComboBox*>(object))
        return plain && (isArrow(key.key()) || key.key() == Qt::Key_Space);
    return false;
}

} // namespace

TypingGuard::TypingGuard(QObject* parent) : QObject(parent) {
    qApp->installEventFilter(this);
}

bool TypingGuard::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::ShortcutOverride) return false;
    if (!belongsToField(watched, *static_cast<QKeyEvent*>(event))) return false;
    event->accept();
    return true;
}

} // namespace earwright::ui
