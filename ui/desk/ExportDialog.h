// Asks what of the line other programs are to get, for whom, and where the file goes.
#pragma once

#include "ui/desk/ExportChoices.h"

#include <QDialog>

#include <functional>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QPushButton;
class QSpinBox;

namespace earwright::ui {

class FileField;

/// Offers what the kind of file can carry. Writes nothing itself: hands what was chosen to `write` and
/// closes.
class ExportDialog : public QDialog {
    Q_OBJECT
public:
    using Write = std::function<void(const ExportChoices&)>;

    /// `hasSound`: whether there is a recording with marked bars, in which the playing can be measured.
    ExportDialog(const ExportChoices& start, bool hasSound, Write write, QWidget* parent = nullptr);

    ExportChoices choices() const;
    void accept() override;

private:
    void addKind();
    void addPage();
    void addMidi();
    void addFile();
    /// The file's name ends as the kind chosen does.
    void endAsChosen();
    /// Shows what the file's kind can carry, and what is in the way of writing.
    void judge();
    QString ending() const;

    ExportChoices start;
    bool hasSound;
    Write write;
    QFormLayout* form;
    QComboBox* kind = nullptr;
    QComboBox* reading = nullptr;
    QComboBox* strings = nullptr;
    QCheckBox* degrees = nullptr;
    QComboBox* playing = nullptr;
    QCheckBox* hasTempo = nullptr;
    QSpinBox* tempo = nullptr;
    QWidget* tempoRow = nullptr;
    FileField* file = nullptr;
    QLabel* trouble = nullptr;
    QPushButton* writeButton = nullptr;
};

} // namespace earwright::ui
