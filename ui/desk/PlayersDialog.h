// Asks who plays: what the line's instrument is, and where the bass stands.
#pragma once

#include "core/study/Players.h"

#include <QDialog>

#include <functional>
#include <optional>

class QComboBox;
class QLabel;
class QLineEdit;

namespace earwright::ui {

/// Changes nothing itself: hands what was chosen to `apply`. Two notes that name no range, or none that can
/// be heard, keep it open, with a sentence. Where they reach beyond what can be heard they are drawn in, and
/// a sentence says so before they are taken.
class PlayersDialog : public QDialog {
    Q_OBJECT
public:
    PlayersDialog(const Players& players, std::function<void(const Players&)> apply,
                  QWidget* parent = nullptr);

    /// As chosen; nothing where the two notes cannot be read.
    std::optional<Players> players() const;
    void accept() override;

private:
    void fill(const Players& players);
    /// The notes are typed where no instrument is named, and shown where one is.
    void showRange();
    /// The two notes as typed, where they are two notes.
    std::optional<PitchRange> typedRange() const;
    void refuse(const QString& why);

    std::function<void(const Players&)> apply;
    QComboBox* instrument;
    QLineEdit* lowest;
    QLineEdit* highest;
    QComboBox* bass;
    QLabel* refusal;
};

} // namespace earwright::ui
