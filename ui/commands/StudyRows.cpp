// The menus Study and Edit.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

void addStudyAndEdit(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{Open, CommandMenu::Study, "open", WORDS("Open…"),
          WORDS("Opens a recording as a new study, a study kept before, or a page of another program"),
          KeyList{with(ctrl, Qt::Key_O)}, always},
         {Save, CommandMenu::Study, "save", WORDS("Save"), WORDS("Saves the study"),
          KeyList{with(ctrl, Qt::Key_S)}, StudyOpen},
         {SaveAs, CommandMenu::Study, "save-as", WORDS("Save as…"),
          WORDS("Saves the study under another name"), KeyList{with(ctrl | shift, Qt::Key_S)}, StudyOpen},
         {NameStudy, CommandMenu::Study, "name-study", WORDS("Name…"), WORDS("Gives the study its title"),
          KeyList{}, StudyOpen, true},
         {WriteSheet, CommandMenu::Study, "sheet", WORDS("Example sheet…"),
          WORDS("Writes the phrases with staff and tablature as a PDF, a drawing or a picture"),
          KeyList{with(ctrl, Qt::Key_E)}, StudyOpen},
         {WriteForOthers, CommandMenu::Study, "write-for-others", WORDS("For other programs…"),
          WORDS("Writes the line as MusicXML or a MIDI file"), KeyList{with(ctrl | shift, Qt::Key_E)},
          StudyOpen},
         {FindRecording, CommandMenu::Study, "find-recording", WORDS("Find the recording…"),
          WORDS("Points the study to its recording where the file has moved"), KeyList{}, StudyOpen},
         {Quit, CommandMenu::Study, "quit", WORDS("Quit"), WORDS("Closes the desk"),
          KeyList{with(ctrl, Qt::Key_Q)}, always, true},
         {Undo, CommandMenu::Edit, "undo", WORDS("Undo"), WORDS("Takes the last change back"),
          KeyList{with(ctrl, Qt::Key_Z)}, CanUndo, false, true},
         {Redo, CommandMenu::Edit, "redo", WORDS("Redo"), WORDS("Makes the change taken back again"),
          KeyList{with(ctrl | shift, Qt::Key_Z)}, CanRedo, false, true},
         {LetGo, CommandMenu::Edit, "let-go", WORDS("Let go"),
          WORDS("Drops what is selected or half done, then lets the grid follow the ear again"),
          KeyList{plain(Qt::Key_Escape)}, StudyOpen, true},
         {FewerBars, CommandMenu::Edit, "fewer-bars", WORDS("Fewer bars to a line"),
          WORDS("Puts half as many bars on a line of the sheet, each of them wider"),
          KeyList{with(ctrl, Qt::Key_PageUp)}, StudyOpen, true},
         {MoreBars, CommandMenu::Edit, "more-bars", WORDS("More bars to a line"),
          WORDS("Puts twice as many bars on a line of the sheet, up to sixteen"),
          KeyList{with(ctrl, Qt::Key_PageDown)}, StudyOpen},
         {SwitchAppearance, CommandMenu::Edit, "appearance", WORDS("Light or dark"),
          WORDS("Changes between paper by day and by night"), KeyList{}, always}});
}

} // namespace earwright::ui::rows
