// Keys as sentences name them: those that commands have now, not those they began with.
#pragma once

#include "ui/commands/CommandId.h"

#include <QKeySequence>
#include <QString>

#include <functional>

namespace earwright::ui {

/// The key a command has now; empty for none.
using KeyOf = std::function<QKeySequence(CommandId)>;

/// The key of the table, before the user changed any.
QKeySequence tableKey(CommandId id);
/// How a command is asked for, within a sentence: "press Q"; without a key "choose “Loose end here…” in the
/// menu Check".
QString howTo(CommandId id, const KeyOf& keyOf);
/// The same where a sentence begins: "Press Q".
QString howToSentence(CommandId id, const KeyOf& keyOf);

} // namespace earwright::ui
