// A field that takes the next key pressed instead of typing it.
#pragma once

#include <QKeySequence>
#include <QLineEdit>

namespace earwright::ui {

/// Takes any key with its modifiers, Tab, Enter and Escape too. The keyboard comes in by a click or by
/// setFocus(), never by Tab, and does not get out by itself: whoever hears caught() takes it elsewhere.
class KeyCatcher : public QLineEdit {
    Q_OBJECT
public:
    explicit KeyCatcher(QWidget* parent = nullptr);
    void show(const QKeySequence& key);

signals:
    void caught(const QKeySequence& key);

protected:
    bool event(QEvent* event) override;
};

} // namespace earwright::ui
