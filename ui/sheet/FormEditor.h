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

    /// Where bars are marked and no chorus is, laying out as many as the recording has room for is proposed
    /// once there are chords.
    explicit FormEditor(const Study& study, QWidget* parent = nullptr);

    QString text() const;
    void setText(const QString& form);
    /// Choruses to lay out; nothing where the user left that alone.
    std::optional<Layout> chorusLayout() const;
    void setChorusLayout(const Layout& layout);
    /// What the text amounts to: how many bars, which symbols cannot be read, and that they show nowhere as
    /// long as no chorus is laid out.
    QString reading() const;

private:
    void build(const Study& study);
    QWidget* buildLayout(const Study& study);
    void showReading();
    /// Whether to lay out, bars and choruses go with the text until the user says so, and how many.
    void followText();

    Meter meter;
    bool isAnyLaidOut = false;
    bool canLayOut = false;
    /// Bars from bar 1 to the end of the recording; none where that is not known.
    std::int64_t barsToEnd = 0;
    bool layOutFollows = false;
    bool barsFollow = true;
    bool chorusesFollow = false;
    QPlainTextEdit* form = nullptr;
    QLabel* read = nullptr;
    QCheckBox* layOut = nullptr;
    QSpinBox* firstBar = nullptr;
    QSpinBox* barCount = nullptr;
    QSpinBox* choruses = nullptr;
};

} // namespace earwright::ui
