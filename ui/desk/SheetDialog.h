// Asks what an example sheet is to hold, how it looks, and where it goes.
#pragma once

#include "core/study/Study.h"
#include "ui/desk/SheetChoices.h"

#include <QDialog>

#include <functional>
#include <memory>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QSpinBox;
class QTableWidget;

namespace earwright::ui {

class FileField;

/// Writes nothing itself: hands what was chosen to `write` and closes, once there is something to write and a
/// file of a known kind to write it to.
class SheetDialog : public QDialog {
    Q_OBJECT
public:
    using Write = std::function<void(const SheetChoices&)>;

    /// `hasSound`: whether there is a recording whose sound can be written.
    SheetDialog(std::shared_ptr<const Study> study, const SheetChoices& start, bool hasSound, Write write,
                QWidget* parent = nullptr);

    SheetChoices choices() const;
    void accept() override;

private:
    QWidget* phrasesPart();
    void fillPhrases(const ExampleWish& wish);
    QWidget* showPart(const ExampleWish& wish);
    void addLook(QFormLayout& form, const ExampleWish& wish);
    void addSound(QFormLayout& form, const SheetChoices& start);
    void addFile(QFormLayout& form, const std::filesystem::path& file);
    /// What is in the way of writing is said, and the button waits.
    void judge();
    QString hindrance() const;
    std::vector<SpanId> chosenPhrases() const;

    std::shared_ptr<const Study> study;
    Write write;
    bool hasSound;
    /// Of the rows of the list.
    std::vector<SpanId> rows;

    QLineEdit* title = nullptr;
    QTableWidget* phrases = nullptr;
    QCheckBox* chords = nullptr;
    QCheckBox* staff = nullptr;
    QCheckBox* tablature = nullptr;
    QCheckBox* degrees = nullptr;
    QCheckBox* tempo = nullptr;
    QCheckBox* slashes = nullptr;
    QComboBox* reading = nullptr;
    QComboBox* clef = nullptr;
    QSpinBox* bars = nullptr;
    QComboBox* paper = nullptr;
    QCheckBox* sound = nullptr;
    /// Kept for the next study where this one has no recording.
    bool soundWished = false;
    QSpinBox* speed = nullptr;
    FileField* file = nullptr;
    QLabel* trouble = nullptr;
    QPushButton* writeButton = nullptr;
};

} // namespace earwright::ui
