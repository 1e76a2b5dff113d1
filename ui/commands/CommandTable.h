// The table of all commands: each once, with its menu, its words, its key and when it makes sense.
#pragma once

#include "ui/commands/CommandId.h"
#include "ui/commands/Conditions.h"

#include <QKeySequence>
#include <QString>

#include <vector>

namespace earwright::ui {

enum class CommandMenu { Study, Edit, Listen, Loops, Sound, Mark, Notes, Page, Check, Help };

/// One row of the table.
struct Command {
    CommandId id;
    CommandMenu menu;
    /// The word under which a changed key is stored; never shown, never changed.
    const char* word;
    /// What the menu says, before translation.
    const char* name;
    /// What it does in one sentence, before translation.
    const char* about;
    /// The first is shown; empty where a command has no key of its own.
    std::vector<QKeySequence> keys;
    Conditions needs;
    /// True where the menu draws a line above it.
    bool startsGroup = false;
    /// True where holding the key down repeats it.
    bool repeats = false;

    QString translatedName() const;
    QString translatedAbout() const;
};

const std::vector<Command>& commandTable();
/// Requires: the table has it, as it has every CommandId.
const Command& command(CommandId id);
QString translatedName(CommandMenu menu);

} // namespace earwright::ui
