// Which key does what: the table's own keys and what the user made of them, kept between sessions.
#pragma once

#include "ui/commands/CommandTable.h"

#include <QObject>

#include <map>
#include <optional>
#include <vector>

class QSettings;

namespace earwright::ui {

/// Threads: the interface's only.
class KeyBindings : public QObject {
    Q_OBJECT
public:
    /// Reads the keys the user changed. Requires: settings outlives this.
    explicit KeyBindings(QSettings& settings, QObject* parent = nullptr);

    /// All keys of a command; the first is the one shown.
    std::vector<QKeySequence> keys(CommandId id) const;
    /// The one shown; empty for none.
    QKeySequence firstKey(CommandId id) const;
    bool isChanged(CommandId id) const { return changed.contains(id); }
    /// Who has a key now, if anyone.
    std::optional<CommandId> owner(const QKeySequence& key) const;

    /// Gives a command this one key, and takes it from whoever had it; an empty key leaves the command
    /// without one. Stored at once.
    void assign(CommandId id, const QKeySequence& key);
    /// The table's key again. Another command that took it meanwhile keeps it.
    void restore(CommandId id);
    void restoreAll();

signals:
    void keysChanged();

private:
    void store(CommandId id);
    void without(CommandId id, const QKeySequence& key);

    QSettings& settings;
    std::map<CommandId, std::vector<QKeySequence>> changed;
};

} // namespace earwright::ui
