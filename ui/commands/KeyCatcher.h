// A field that takes the next key pressed instead of typing it.
#pragma once

#include <QKeySequence>
#include <QLineEdit>

#include <vector>

class QShortcut;

namespace earwright::ui {

/// Takes any key with its modifiers, Tab, Enter and Escape too. The keyboard comes in by a click or by
/// setFocus(), never by Tab, and does not get out by itself: whoever hears caught() takes it elsewhere.
class KeyCatcher : public QLineEdit {
    Q_OBJECT
public:
    explicit KeyCatcher(QWidget* parent = nullptr);
    void show(const QKeySequence& key);
    /// Keys that mean something already: pressed, they are caught as they are written here. What Shift makes
    /// of a key depends on the keyboard: Shift+, comes as "<".
    void setKnown(const std::vector<QKeySequence>& keys);

signals:
    void caught(const QKeySequence& key);

protected:
    bool event(QEvent* event) override;

private:
    void take(const QKeySequence& key);

    /// Of a key's spellings the one that is known, else the first.
    QKeySequence named(const std::vector<QKeySequence>& spellings) const;

    std::vector<QShortcut*> known;
};

} // namespace earwright::ui
