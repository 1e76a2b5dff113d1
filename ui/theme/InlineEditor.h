// One line typed right where it belongs: chords over a bar of the sheet, a name under a bracket, a flag's
// word, words in the grid.
#pragma once

#include <QLineEdit>

#include <functional>

namespace earwright::ui {

/// Enter keeps what is typed, Escape drops it, leaving the field keeps it if it was changed.
class InlineEditor : public QLineEdit {
    Q_OBJECT
public:
    using Done = std::function<void(const QString&)>;

    explicit InlineEditor(QWidget* parent);
    /// Opens at a place; an editor still open elsewhere is finished first.
    void open(const QRect& place, const QString& text, const QString& what, Done done);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void finish(bool keep);

    Done whenDone;
    QString before;
};

} // namespace earwright::ui
