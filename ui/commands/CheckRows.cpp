// The menus Check and Help.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

void addCheckAndHelp(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{CheckPhrase, Check, "check", WORDS("Check the phrase"),
          WORDS("Compares the phrase under the cursor with the recording, or all phrases of the selected "
                "stretch or of the loop it is in; where none is marked, the notes around become one"),
          KeyList{plain(Qt::Key_C)}, RecordingOpen | WrittenToCheck | Tempo},
         {NextHelp, Check, "next-help", WORDS("Next step of help"),
          WORDS("Says one thing more about the place chosen, or the next place"), KeyList{plain(Qt::Key_H)},
          Places},
         {CommandId::Feel, Check, "feel", WORDS("Feel of the phrase"),
          WORDS("Tells how far the eighths of the phrase swing and how its notes lie against the beat; where "
                "no phrase is marked, the notes around the cursor become one"),
          KeyList{with(shift, Qt::Key_C)}, RecordingOpen | WrittenHere | Tempo},
         {HowPlayed, Check, "how-played", WORDS("How it is played"),
          WORDS("Tells how the selected note is played: early or late, soft or loud, how its pitch moves, "
                "and what "
                "the record says to its signs; once more puts it away"),
          KeyList{with(shift, Qt::Key_A)}, RecordingOpen | WrittenHere | Tempo},
         {CommandId::CheckChords, Check, "check-chords", WORDS("Check the chords"),
          WORDS("Compares the chords of the selected stretch, the loop or the chorus with comping "
                "and bass"),
          KeyList{with(ctrl | shift, Qt::Key_C)}, RecordingOpen | Tempo},
         {TellChord, Check, "tell-chord", WORDS("What speaks for this chord"),
          WORDS("Says what is heard for or against the chord where the ear is"),
          KeyList{with(shift, Qt::Key_H)}, ChordAnswer},
         {WhoPlays, Check, "who-plays", WORDS("Who plays…"),
          WORDS("Says what the line's instrument is and where the bass stands, so that the check listens for "
                "them"),
          KeyList{with(ctrl | shift, Qt::Key_W)}, StudyOpen},
         {ShowEarRecord, Check, "ear-record", WORDS("Ear record…"),
          WORDS("Shows how many notes were found by ear and with help: over time, by interval and by what "
                "was off"),
          KeyList{with(ctrl, Qt::Key_H)}, StudyOpen},
         {LooseEndHere, Check, "loose-end", WORDS("Loose end here…"),
          WORDS("Keeps the place where the ear is in mind, with a word of text"), KeyList{plain(Qt::Key_Q)},
          StudyOpen, true},
         {NextLooseEnd, Check, "next-loose-end", WORDS("Next loose end"),
          WORDS("Moves the ear to the next loose end not ticked off"), KeyList{plain(Qt::Key_J)}, LooseEnds},
         {TickLooseEnd, Check, "tick-loose-end", WORDS("Tick the loose end off"),
          WORDS("Ticks off the loose end where the ear is, or opens it again"),
          KeyList{with(shift, Qt::Key_Q)}, NearLooseEnd},
         {NextPart, Help, "next-part", WORDS("Next part of the desk"),
          WORDS("Moves the keyboard on: strip, sheet, messages, grid, help, loose ends, takes, transport"),
          KeyList{plain(Qt::Key_F6)}, always},
         {CommandId::Keys, Help, "keys", WORDS("Keys…"), WORDS("Shows all keys, and lets you change them"),
          KeyList{plain(Qt::Key_F1)}, always},
         {About, Help, "about", WORDS("About Earwright"), WORDS("Says what this program is and its licence"),
          KeyList{}, always}});
}

} // namespace earwright::ui::rows
