#include "ui/desk/TypingGuard.h"

#include <QAbstractButton>
#include <QAbstractItemView>
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
    if (const auto* field = qobject_cast<const QLineEdit*>(object)) return !field->isReadOnly();
    return qobject_cast<const QPlainTextEdit*>(object) || qobject_cast<const QAbstractSpinBox*>(object);
}

bool isArrow(int key) {
    return key == Qt::Key_Left || key == Qt::Key_Right || key == Qt::Key_Up || key == Qt::Key_Down;
}

bool isTab(int key) {
    return key == Qt::Key_Tab || key == Qt::Key_Backtab;
}

bool actsOnRow(int key, const QModelIndex& row) {
    if (!row.isValid()) return false;
    if (key == Qt::Key_Space)
        return row.flags() & Qt::ItemIsUserCheckable && row.data(Qt::CheckStateRole).isValid();
    return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Delete || key == Qt::Key_Backspace;
}

bool belongsToField(const QObject* object, const QKeyEvent& key) {
    const bool plain = !(key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (takesWords(object)) return plain;
    if (!plain) return false;
    if (qobject_cast<const QAbstractButton*>(object)) return isTab(key.key()) || key.key() == Qt::Key_Space;
    if (qobject_cast<const QAbstractSlider*>(object)) return isTab(key.key()) || isArrow(key.key());
    if (qobject_cast<const QComboBox*>(object))
        return isTab(key.key()) || isArrow(key.key()) || key.key() == Qt::Key_Space;
    if (const auto* list = qobject_cast<const QAbstractItemView*>(object)) {
        const bool held = key.modifiers() & Qt::ShiftModifier;
        return isTab(key.key()) || (!held && actsOnRow(key.key(), list->currentIndex()));
    }
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
