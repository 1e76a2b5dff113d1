// The form typed once, and choruses laid out over it.
#pragma once

#include "core/study/Study.h"

#include <QDialog>

#include <optional>

class QCheckBox;
class QLabel;
class QPlainTextEdit;
class QSpinBox;

namespace earwright::ui {

/// Asks for the chords of a chorus, and for where choruses lie. Changes nothing itself.
class FormEditor : public QDialog {
    Q_OBJECT
public:
    /// Choruses one after the other.
    struct Layout {
        std::int64_t firstBar = 1;
        std::int64_t barCount = 12;
        int count = 1;
        friend bool operator==(const Layout&, const Layout&) = default;
    };

    explicit FormEditor(const Study& study, QWidget* parent = nullptr);

    QString text() const;
    void setText(const QString& form);
    /// Choruses to lay out; nothing where the user left that alone.
    std::optional<Layout> chorusLayout() const;
    void setChorusLayout(const Layout& layout);
    /// What the text amounts to: how many bars, and which symbols cannot be read.
    QString reading() const;

private:
    void build(const Study& study);
    QWidget* buildLayout(const Study& study);
    void showReading();

    Meter meter;
    QPlainTextEdit* form = nullptr;
    QLabel* read = nullptr;
    QCheckBox* layOut = nullptr;
    QSpinBox* firstBar = nullptr;
    QSpinBox* barCount = nullptr;
    QSpinBox* choruses = nullptr;
};

} // namespace earwright::ui
