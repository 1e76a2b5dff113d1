// A field that takes the next key pressed instead of typing it.
#pragma once

#include <QKeySequence>
#include <QLineEdit>

namespace earwright::ui {

/// Takes any key with its modifiers, Tab, Enter and Escape too; leaving it goes by mouse or by its signal.
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
