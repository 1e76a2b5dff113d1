#include "ui/theme/InlineEditor.h"

#include <QKeyEvent>

#include <utility>

namespace earwright::ui {

InlineEditor::InlineEditor(QWidget* parent) : QLineEdit(parent) {
    hide();
}

void InlineEditor::open(const QRect& place, const QString& text, const QString& what, Done done) {
    finish(this->text() != before);
    before = text;
    whenDone = std::move(done);
    setAccessibleName(what);
    setPlaceholderText(what);
    setText(text);
    selectAll();
    setGeometry(place);
    show();
    setFocus();
}

bool InlineEditor::event(QEvent* event) {
    if (event->type() != QEvent::ShortcutOverride) return QLineEdit::event(event);
    // While a word is typed no letter is a command; commands with Ctrl still are.
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->modifiers() & Qt::ControlModifier) return QLineEdit::event(event);
    event->accept();
    return true;
}

void InlineEditor::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return finish(true);
    if (event->key() == Qt::Key_Escape) return finish(false);
    // Comes here only where there is nothing to go on to.
    if (event->key() == Qt::Key_Tab || event->key() == Qt::Key_Backtab) return finish(text() != before);
    QLineEdit::keyPressEvent(event);
}

void InlineEditor::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    const bool onlyLookingElsewhere =
        event->reason() == Qt::PopupFocusReason || event->reason() == Qt::ActiveWindowFocusReason;
    if (!onlyLookingElsewhere) finish(text() != before);
}

void InlineEditor::finish(bool keep) {
    if (!whenDone) return;
    const Done done = std::exchange(whenDone, nullptr);
    const QString typed = text().trimmed();
    // Whoever has the keyboard by now keeps it.
    const bool hadFocus = hasFocus();
    hide();
    if (hadFocus) parentWidget()->setFocus();
    if (keep) done(typed);
}

} // namespace earwright::ui
