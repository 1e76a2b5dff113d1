// Asks what stands over a passage of bars: meter, key, swing, tempo in words, repeat; at bar 1,
// its pickup too.
#pragma once

#include "core/study/PassageEdits.h"

#include <QDialog>

#include <functional>
#include <optional>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QSpinBox;

namespace earwright::ui {

/// Changes nothing itself: hands the change to `apply`, which answers why it cannot be, and stays open then.
/// Only what the user altered is in the change.
class PassageDialog : public QDialog {
    Q_OBJECT
public:
    /// What the user came for, and so where typing begins.
    enum class Subject { Meter, Key, Swing, Tempo, Repeat, Pickup };
    using Apply = std::function<std::optional<QString>(const PassageChange&)>;

    /// Shows what stands at a bar; `bars` where a stretch of so many was selected.
    PassageDialog(const Study& study, std::int64_t bar, std::optional<std::int64_t> bars, Subject subject,
                  Apply apply, QWidget* parent = nullptr);

    PassageChange change() const;
    void accept() override;

private:
    void addPassage(QFormLayout& form, std::optional<std::int64_t> bars);
    void addMeter(QFormLayout& form);
    void addKey(QFormLayout& form);
    void addSwing(QFormLayout& form);
    std::optional<Swing> changedSwing() const;
    void addTempo(QFormLayout& form);
    void addRepeat(QFormLayout& form);
    void addPickup(QFormLayout& form);
    void fitPickup();
    std::optional<StatedPickup> changedPickup() const;
    QWidget* fieldOf(Subject subject) const;

    Apply apply;
    /// As it stood when the dialog came up.
    std::int64_t bar;
    Meter meter;
    KeySignature key;
    Swing swing;
    /// The swing's ratio as the field can show it.
    double shownRatio = 1;
    StatedTempo tempo;
    StatedRepeat repeat;
    StatedPickup pickup;
    /// What was last chosen for the pickup, be the bar above too short for it meanwhile.
    double wantedPickup = 0;
    /// The pickup's length as the field can show it.
    double shownPickup = 0;

    QCheckBox* limited = nullptr;
    QSpinBox* barCount = nullptr;
    QSpinBox* beats = nullptr;
    QComboBox* unit = nullptr;
    QComboBox* keys = nullptr;
    QDoubleSpinBox* ratio = nullptr;
    QComboBox* swingNotes = nullptr;
    QLineEdit* words = nullptr;
    QSpinBox* figure = nullptr;
    QSpinBox* times = nullptr;
    QSpinBox* endingBars = nullptr;
    /// At bar 1 only.
    QDoubleSpinBox* pickupBeats = nullptr;
    QLabel* refusal = nullptr;
};

} // namespace earwright::ui
