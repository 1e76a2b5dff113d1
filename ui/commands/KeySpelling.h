// How a key that was pressed is written in the table of commands.
#pragma once

#include <QKeySequence>

#include <vector>

class QKeyEvent;

namespace earwright::ui {

/// The ways a press may be written; the first is the one to show. Shift+Tab, for which Qt has a name of its
/// own; and, since Shift+, comes as "<", with Shift also the sign that most keyboards have on the same key.
std::vector<QKeySequence> spellingsOf(const QKeyEvent& press);

} // namespace earwright::ui
