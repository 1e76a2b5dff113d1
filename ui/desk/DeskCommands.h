// What each command of the table does at the desk.
#pragma once

namespace earwright::ui {

class CommandSet;
class DeskWindow;

/// Binds every command of the table. Requires: called once; the window outlives the commands.
void bindCommands(CommandSet& commands, DeskWindow& window);

} // namespace earwright::ui
