// The menu Mark: bars and beats, what stands over them, and names of stretches.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

void addMark(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{TapBar, Mark, "tap-bar", WORDS("Bar here"), WORDS("Marks a bar line where the ear is"),
          KeyList{plain(Qt::Key_Return), with(Qt::KeypadModifier, Qt::Key_Enter)}, RecordingOpen},
         {TapBeat, Mark, "tap-beat", WORDS("Beat here"), WORDS("Marks a beat where the ear is"),
          KeyList{with(shift, Qt::Key_Return), with(shift | Qt::KeypadModifier, Qt::Key_Enter)},
          RecordingOpen},
         {RemoveMark, Mark, "remove-mark", WORDS("Remove the mark"),
          WORDS("Takes away the bar or beat mark nearest to the ear"), KeyList{plain(Qt::Key_Backspace)},
          MarkHere},
         {BarOneHere, Mark, "bar-one", WORDS("Bar 1 here"),
          WORDS("Counts bars from the one where the ear is"), KeyList{plain(Qt::Key_1)}, Tempo},
         {MeterHere, Mark, "meter", WORDS("Meter…"),
          WORDS("Says how many beats bars have from here on, or over the selected bars"),
          KeyList{with(ctrl, Qt::Key_T)}, StudyOpen},
         {KeyHere, Mark, "key", WORDS("Key…"),
          WORDS("Changes the key from here on, or over the selected bars"),
          KeyList{with(ctrl | shift, Qt::Key_T)}, StudyOpen},
         {SwingHere, Mark, "swing", WORDS("Swing…"),
          WORDS("Says how eighths or sixteenths swing from here on, or over the selected bars"),
          KeyList{with(ctrl, Qt::Key_I)}, StudyOpen},
         {TempoHere, Mark, "tempo", WORDS("Tempo mark…"),
          WORDS("Writes a tempo over the bar, in words and as a figure"),
          KeyList{with(ctrl | shift, Qt::Key_I)}, StudyOpen},
         {RepeatHere, Mark, "repeat", WORDS("Repeat on the page…"),
          WORDS("Writes repeat signs and endings for the selected bars; what sounds stays as it is"),
          KeyList{with(ctrl | shift, Qt::Key_R)}, StudyOpen},
         {PickupLength, Mark, "pickup", WORDS("Pickup…"),
          WORDS("Says how long the bar before bar 1 is on the page"), KeyList{}, StudyOpen},
         {FindBeats, Mark, "find-beats", WORDS("Find beats"),
          WORDS("Proposes beats for the stretch, loop, phrase or what is in sight; marks there lead"),
          KeyList{with(ctrl, Qt::Key_B)}, RecordingOpen, true},
         {AcceptBeats, Mark, "accept-beats", WORDS("Accept the beats"),
          WORDS("Turns the proposed beats into marks; the marks that are there stay"),
          KeyList{with(ctrl | shift, Qt::Key_B)}, Proposal},
         {MarkPhrase, Mark, "mark-phrase", WORDS("Phrase…"),
          WORDS("Names the selected stretch, or the loop, as a phrase"), KeyList{plain(Qt::Key_M)}, Stretch,
          true},
         {MarkChorus, Mark, "mark-chorus", WORDS("Chorus…"),
          WORDS("Names the selected stretch, or the loop, as a chorus"), KeyList{with(shift, Qt::Key_M)},
          Stretch},
         {MarkSection, Mark, "mark-section", WORDS("Section…"),
          WORDS("Names the selected stretch, or the loop, as a section such as head or tag"),
          KeyList{with(ctrl, Qt::Key_M)}, Stretch},
         {RenameSpan, Mark, "rename-span", WORDS("Another name…"),
          WORDS("Renames the phrase, chorus or section where the ear is"), KeyList{plain(Qt::Key_E)},
          SpanHere},
         {RemoveSpan, Mark, "remove-span", WORDS("No longer a phrase, chorus or section"),
          WORDS("Takes the name off the innermost stretch where the ear is; its notes stay"),
          KeyList{with(shift, Qt::Key_Backspace)}, SpanHere},
         {PreviousPhrase, Mark, "previous-phrase", WORDS("Phrase before"),
          WORDS("Moves the ear to the phrase before"), KeyList{plain(Qt::Key_BracketLeft)}, Phrases, true},
         {NextPhrase, Mark, "next-phrase", WORDS("Next phrase"), WORDS("Moves the ear to the next phrase"),
          KeyList{plain(Qt::Key_BracketRight)}, Phrases},
         {ChordsHere, Mark, "chords-here", WORDS("Chords of this bar…"),
          WORDS("Types the chords over the bar where the ear is"), KeyList{plain(Qt::Key_T)}, Tempo, true},
         {Form, Mark, "form", WORDS("Form…"), WORDS("Types the chords of a chorus once, for all choruses"),
          KeyList{with(shift, Qt::Key_T)}, StudyOpen}});
}

} // namespace earwright::ui::rows
