// The menu Notes: notes, where they stand, how they are chosen and entered.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

void addWriting(std::vector<Command>& table) {
    const Conditions note = NoteSelected;
    table.insert(
        table.end(),
        {{NoteInOrOut, Notes, "note", WORDS("Note in or out"),
          WORDS("Writes a note at the grid's cursor, or takes the one there out"), KeyList{plain(Qt::Key_N)},
          Grid},
         {RemoveNote, Notes, "remove-note", WORDS("Remove the note"), WORDS("Takes the selected note out"),
          KeyList{plain(Qt::Key_Delete)}, note},
         {NextColumn, Notes, "next-column", WORDS("Next column"),
          WORDS("Moves the grid's cursor on and sounds that slice of the record"),
          KeyList{plain(Qt::Key_Tab)}, Grid, false, true},
         {PreviousColumn, Notes, "previous-column", WORDS("Column before"),
          WORDS("Moves the grid's cursor back and sounds that slice of the record"),
          KeyList{with(shift, Qt::Key_Tab)}, Grid, false, true},
         {Longer, Notes, "longer", WORDS("Longer"), WORDS("Lengthens the selected note by a column"),
          KeyList{with(shift, Qt::Key_Right)}, note, true, true},
         {Shorter, Notes, "shorter", WORDS("Shorter"), WORDS("Shortens the selected note by a column"),
          KeyList{with(shift, Qt::Key_Left)}, note, false, true},
         {NoteEarlier, Notes, "note-earlier", WORDS("Note earlier"),
          WORDS("Moves the selected note back a column"), KeyList{with(alt, Qt::Key_Left)}, note, false,
          true},
         {NoteLater, Notes, "note-later", WORDS("Note later"), WORDS("Moves the selected note on a column"),
          KeyList{with(alt, Qt::Key_Right)}, note, false, true},
         {NoteHigher, Notes, "note-higher", WORDS("Note higher"),
          WORDS("Moves the selected note up a semitone"), KeyList{with(alt, Qt::Key_Up)}, note, false, true},
         {NoteLower, Notes, "note-lower", WORDS("Note lower"),
          WORDS("Moves the selected note down a semitone"), KeyList{with(alt, Qt::Key_Down)}, note, false,
          true},
         {SpreadNotes, Notes, "spread-notes", WORDS("Spread evenly"),
          WORDS("Spreads the selected notes evenly over the whole beats they lie in, such as three over two, "
                "where no other note begins there"),
          KeyList{with(alt, Qt::Key_3)}, note},
         {RespellNote, Notes, "respell", WORDS("Respell"),
          WORDS(
              "Gives the selected note its next name on the page, such as C♯ for D♭, and at last the one of "
              "key, chord and line"),
          KeyList{with(alt, Qt::Key_A)}, note},
         {NoteLouder, Notes, "note-louder", WORDS("Note louder"),
          WORDS("Writes the selected note a little louder"), KeyList{with(shift, Qt::Key_Up)}, note, false,
          true},
         {NoteSofter, Notes, "note-softer", WORDS("Note softer"),
          WORDS("Writes the selected note a little softer"), KeyList{with(shift, Qt::Key_Down)}, note, false,
          true}});
}

void addStrings(std::vector<Command>& table) {
    table.insert(table.end(),
                 {{StringHigher, Notes, "string-higher", WORDS("On the string above"),
                   WORDS("Plays the selected note on the next higher string that has it, and keeps it there"),
                   KeyList{with(alt | shift, Qt::Key_PageUp)}, NoteSelected, true, true},
                  {StringLower, Notes, "string-lower", WORDS("On the string below"),
                   WORDS("Plays the selected note on the next lower string that has it, and keeps it there"),
                   KeyList{with(alt | shift, Qt::Key_PageDown)}, NoteSelected, false, true},
                  {StringFree, Notes, "string-free", WORDS("On the string where it lies best"),
                   WORDS("Lets the fingering choose the string of the selected note again"),
                   KeyList{with(alt | shift, Qt::Key_Home)}, NoteSelected}});
}

void addSelecting(std::vector<Command>& table) {
    table.insert(table.end(), {{SelectNext, Notes, "select-next", WORDS("Take in the next note"),
                                WORDS("Selects the next note as well, or lets the last one taken in go"),
                                KeyList{with(ctrl | shift, Qt::Key_Right)}, NoteSelected, true, true},
                               {SelectBefore, Notes, "select-before", WORDS("Take in the note before"),
                                WORDS("Selects the note before as well, or lets the last one taken in go"),
                                KeyList{with(ctrl | shift, Qt::Key_Left)}, NoteSelected, false, true},
                               {SelectAllNotes, Notes, "select-all", WORDS("All notes of the grid"),
                                WORDS("Selects every note of the bars in the grid"),
                                KeyList{with(ctrl, Qt::Key_A)}, Grid}});
}

void addPageMarks(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{DynamicLouder, Notes, "dynamic-louder", WORDS("Dynamic: louder"),
          WORDS("Sets a dynamic at the cursor, then a step louder: ppp to fff"),
          KeyList{with(alt, Qt::Key_Equal)}, Grid, true, true},
         {DynamicSofter, Notes, "dynamic-softer", WORDS("Dynamic: softer"),
          WORDS("Sets a dynamic at the cursor, then a step softer"), KeyList{with(alt, Qt::Key_Minus)}, Grid,
          false, true},
         {HairpinLouder, Notes, "hairpin-louder", WORDS("Hairpin: louder"),
          WORDS("A hairpin that opens over the selected notes, or none"), KeyList{with(alt, Qt::Key_Comma)},
          Grid},
         {HairpinSofter, Notes, "hairpin-softer", WORDS("Hairpin: softer"),
          WORDS("A hairpin that closes over the selected notes, or none"), KeyList{with(alt, Qt::Key_Period)},
          Grid},
         {WordsHere, Notes, "words", WORDS("Words…"), WORDS("Free words over the line at the cursor"),
          KeyList{with(alt, Qt::Key_W)}, Grid},
         {ClearPageMarks, Notes, "clear-page-marks", WORDS("No dynamic, hairpin or words"),
          WORDS("Takes away what stands at the cursor or over the selected notes"),
          KeyList{with(alt, Qt::Key_Backspace)}, Grid},
         {TapRhythm, Notes, "tap-rhythm", WORDS("Tap the rhythm in"),
          WORDS("Places notes where you tap any letter, or play a MIDI keyboard, while the record plays; "
                "Enter offers ways to write them"),
          KeyList{with(alt, Qt::Key_E)}, Grid, true},
         {EnterByInstrument, Notes, "enter-by-instrument", WORDS("Enter by instrument"),
          WORDS("Gives the grid's cursor the pitch of each key of a MIDI keyboard, or of each note you "
                "play or sing into the input, and goes on; Esc ends it"),
          KeyList{with(alt, Qt::Key_I)}, Grid},
         {EntryOctaveHigher, Notes, "entry-octave-higher", WORDS("Entered an octave higher"),
          WORDS("Writes what you play or sing into the input an octave higher than until now"),
          KeyList{with(alt, Qt::Key_O)}, Grid},
         {EntryOctaveLower, Notes, "entry-octave-lower", WORDS("Entered an octave lower"),
          WORDS("Writes what you play or sing into the input an octave lower than until now"),
          KeyList{with(alt | shift, Qt::Key_O)}, Grid}});
}

/// The number as a key, from ten on with Alt.
void addDividing(std::vector<Command>& table) {
    const auto divide = [&](CommandId id, const char* word, const char* name, const char* about,
                            QKeySequence key) {
        table.push_back({id, Notes, word, name, about, {std::move(key)}, Grid, id == DivideByOne});
    };
    divide(DivideByOne, "divide-1", WORDS("Beat undivided"), WORDS("Leaves the beat under the cursor whole"),
           with(ctrl, Qt::Key_1));
    divide(DivideByTwo, "divide-2", WORDS("Beat in two"), WORDS("Divides the beat under the cursor in two"),
           plain(Qt::Key_2));
    divide(DivideByThree, "divide-3", WORDS("Beat in three"),
           WORDS("Divides the beat under the cursor in three"), plain(Qt::Key_3));
    divide(DivideByFour, "divide-4", WORDS("Beat in four"),
           WORDS("Divides the beat under the cursor in four"), plain(Qt::Key_4));
    divide(DivideByFive, "divide-5", WORDS("Beat in five"),
           WORDS("Divides the beat under the cursor in five"), plain(Qt::Key_5));
    divide(DivideBySix, "divide-6", WORDS("Beat in six"), WORDS("Divides the beat under the cursor in six"),
           plain(Qt::Key_6));
    divide(DivideBySeven, "divide-7", WORDS("Beat in seven"),
           WORDS("Divides the beat under the cursor in seven"), plain(Qt::Key_7));
    divide(DivideByEight, "divide-8", WORDS("Beat in eight"),
           WORDS("Divides the beat under the cursor in eight"), plain(Qt::Key_8));
    divide(DivideByNine, "divide-9", WORDS("Beat in nine"),
           WORDS("Divides the beat under the cursor in nine"), plain(Qt::Key_9));
    divide(DivideByTen, "divide-10", WORDS("Beat in ten"), WORDS("Divides the beat under the cursor in ten"),
           with(alt, Qt::Key_0));
    divide(DivideByEleven, "divide-11", WORDS("Beat in eleven"),
           WORDS("Divides the beat under the cursor in eleven"), with(alt, Qt::Key_1));
    divide(DivideByTwelve, "divide-12", WORDS("Beat in twelve"),
           WORDS("Divides the beat under the cursor in twelve"), with(alt, Qt::Key_2));
}

} // namespace earwright::ui::rows
