// Keeps the desk's plain keys from being commands while a word is typed, or a button is meant.
#pragma once

#include <QObject>

namespace earwright::ui {

/// Watches the whole program. With the keyboard in a text field every key without Ctrl or Alt belongs to the
/// field; on a button reached by keyboard the space bar presses it, and a slider or a choice of several keeps
/// the arrows. A list keeps what is done to its rows: Enter, Delete, Backspace, and the space bar where rows
/// are ticked. From all of them Tab goes on to the next. Threads: interface only.
class TypingGuard : public QObject {
    Q_OBJECT
public:
    explicit TypingGuard(QObject* parent = nullptr);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

} // namespace earwright::ui
