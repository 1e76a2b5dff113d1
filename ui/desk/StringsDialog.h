// Asks for the strings the line is played on: how they are tuned, frets and capo.
#pragma once

#include "core/music/StringTuning.h"

#include <QDialog>

#include <functional>
#include <optional>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace earwright::ui {

/// Changes nothing itself: hands the tuning to `choose` and closes, once it can be read.
class StringsDialog : public QDialog {
    Q_OBJECT
public:
    using Choose = std::function<void(const StringTuning&)>;

    StringsDialog(const StringTuning& now, Choose choose, QWidget* parent = nullptr);

    /// None where the strings cannot be read, or the capo leaves no fret.
    std::optional<StringTuning> tuning() const;
    void accept() override;

private:
    void takeNamed(int index);
    /// Shows which of the named tunings it is, or what is wrong with it.
    void judge();
    QString reading(const StringTuning& tuning) const;

    Choose choose;
    QComboBox* named = nullptr;
    QLineEdit* strings = nullptr;
    QSpinBox* frets = nullptr;
    /// How many strings the instrument has whose frets are shown.
    std::size_t fretsAreFor;
    QSpinBox* capo = nullptr;
    QLabel* about = nullptr;
    QPushButton* ok = nullptr;
};

} // namespace earwright::ui
