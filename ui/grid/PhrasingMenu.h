// All marks of phrasing as a menu: in groups, each with a letter to press and with its key.
#pragma once

#include "core/music/Note.h"
#include "core/music/PhrasingKind.h"
#include "ui/commands/KeyWords.h"

#include <QKeySequence>

#include <functional>

class QMenu;
class QWidget;

namespace earwright::ui {

/// What the menu asks for.
struct PhrasingChoices {
    std::function<void(PhrasingKind)> mark;
    std::function<void()> moreGrace;
    /// The key a command has now.
    KeyOf keyOf;
};

/// Ticks what the note has. The menu deletes itself when it is closed.
QMenu* makePhrasingMenu(const Phrasing& phrasing, const PhrasingChoices& choices, QWidget* parent);

} // namespace earwright::ui
