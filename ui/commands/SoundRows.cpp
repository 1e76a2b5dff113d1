// The menu Sound.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

void addPitchAndLoudness(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{SemitoneDown, Sound, "semitone-down", WORDS("Semitone down"),
          WORDS("Sounds the recording a semitone lower"), KeyList{with(ctrl | shift, Qt::Key_Down)},
          StudyOpen, false, true},
         {SemitoneUp, Sound, "semitone-up", WORDS("Semitone up"),
          WORDS("Sounds the recording a semitone higher"), KeyList{with(ctrl | shift, Qt::Key_Up)}, StudyOpen,
          false, true},
         {PlayInTune, Sound, "play-in-tune", WORDS("At the reference A"),
          WORDS("Moves a record that is flat or sharp to the A your instrument is tuned to, or back"),
          KeyList{plain(Qt::Key_I)}, OffPitch},
         {Softer, Sound, "softer", WORDS("Softer"), WORDS("Turns the level down"),
          KeyList{with(ctrl, Qt::Key_Down)}, always, true, true},
         {Louder, Sound, "louder", WORDS("Louder"), WORDS("Turns the level up"),
          KeyList{with(ctrl, Qt::Key_Up)}, always, false, true},
         {YoursSofter, Sound, "yours-softer", WORDS("Yours softer"),
          WORDS("Turns the written notes down against the record"), KeyList{with(shift, Qt::Key_Y)},
          StudyOpen, false, true},
         {YoursLouder, Sound, "yours-louder", WORDS("Yours louder"),
          WORDS("Turns the written notes up against the record"), KeyList{plain(Qt::Key_Y)}, StudyOpen, false,
          true},
         {SoundDevice, Sound, "sound-device", WORDS("Sound device…"),
          WORDS("Chooses where the sound goes, and shows how it has gone so far"), KeyList{}, always, true},
         {Clicks, Sound, "clicks", WORDS("Clicks on the beat"),
          WORDS("Clicks on every beat of the marked bars, higher on the first of a bar"),
          KeyList{plain(Qt::Key_W)}, Tempo, true},
         {CountIn, Sound, "count-in", WORDS("Count in"),
          WORDS("Counts one bar in before the sound begins, two bars, or none"),
          KeyList{with(shift, Qt::Key_W)}, Tempo},
         {RecordTake, Sound, "record-take", WORDS("Record a take, or stop"),
          WORDS("Plays, and keeps what you play along; each pass of a loop is a take"),
          KeyList{plain(Qt::Key_Z)}, RecordingOpen, true},
         {ShowTakes, Sound, "takes", WORDS("Takes and input"),
          WORDS("Shows the takes and the input you play into, or puts them away"),
          KeyList{with(shift, Qt::Key_Z)}, StudyOpen}});
}

} // namespace earwright::ui::rows
