// The commands as the window's actions: bound to what they do, offered when they make sense, in menus.
#pragma once

#include "ui/commands/CommandTable.h"
#include "ui/commands/KeyBindings.h"

#include <QObject>

#include <functional>
#include <map>
#include <vector>

class QAction;
class QMenuBar;
class QWidget;

namespace earwright::ui {

/// Threads: the interface's only. Ownership: the actions belong to this.
class CommandSet : public QObject {
    Q_OBJECT
public:
    /// Makes one action for each command and gives them to the window, so that their keys work in it.
    CommandSet(KeyBindings& bindings, QWidget& window);

    QAction* action(CommandId id) const { return actions.at(id); }
    /// What a command does. Requires: bound once.
    void bind(CommandId id, std::function<void()> deed);
    /// Commands that would do nothing; empty once the window is complete.
    std::vector<CommandId> unbound() const;
    /// Offers exactly the commands whose needs are met.
    void setConditions(Conditions now);
    /// Why a key does nothing now: the command it belongs to by name, and what is missing. Empty where the
    /// key belongs to none, or its command is offered.
    QString whyNot(const QKeySequence& key) const;
    void fill(QMenuBar& menuBar) const;

private:
    void showKeys();

    KeyBindings& keys;
    std::map<CommandId, QAction*> actions;
    std::map<CommandId, bool> bound;
    Conditions met;
};

} // namespace earwright::ui
