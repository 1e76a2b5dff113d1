// All commands with their keys, and the place where a key is changed.
#pragma once

#include "ui/commands/KeyBindings.h"

#include <QDialog>

#include <optional>

class QLabel;
class QPushButton;
class QTreeWidget;

namespace earwright::ui {

class KeyCatcher;

/// Changes take effect at once; there is nothing to confirm.
class KeysDialog : public QDialog {
    Q_OBJECT
public:
    explicit KeysDialog(KeyBindings& bindings, QWidget* parent = nullptr);

    /// Chooses the command whose key is to be changed.
    void choose(CommandId id);

private:
    void build();
    void fill();
    void showKeys();
    void showChosen();
    void take(const QKeySequence& key);
    std::optional<CommandId> chosen() const;

    KeyBindings& keys;
    QTreeWidget* list = nullptr;
    QLabel* about = nullptr;
    QLabel* outcome = nullptr;
    KeyCatcher* catcher = nullptr;
    QPushButton* none = nullptr;
    QPushButton* original = nullptr;
};

} // namespace earwright::ui
