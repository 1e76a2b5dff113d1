// What tuning the record has, and a word that brings it to concert pitch.
#pragma once

#include <QWidget>

#include <optional>

class QLabel;

namespace earwright::ui {

class QuietButton;

/// "record is 12 cents flat  match"; up to two cents off counts as concert pitch.
/// Units: cents, A4 = 440 Hz is 0.
class TuningLine : public QWidget {
    Q_OBJECT
public:
    explicit TuningLine(QWidget* parent = nullptr);

    /// How far the record is above concert pitch; nothing while it is not known.
    void setTuning(std::optional<double> cents);
    /// How far the pitch is moved now, to tell whether the record is matched.
    void setCents(int cents);

    QString text() const;
    QuietButton* matchButton() const { return match; }

signals:
    /// The cents that bring the record to concert pitch, or 0 to leave it as it is.
    void centsChosen(int cents);

private:
    void show();

    std::optional<int> record;
    int inUse = 0;
    QLabel* line;
    QuietButton* match;
};

} // namespace earwright::ui
