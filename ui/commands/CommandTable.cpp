#include "ui/commands/CommandTable.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>
#include <cassert>

namespace earwright::ui {

namespace {

using enum CommandId;
using enum CommandMenu;
using enum Condition;
using KeyList = std::vector<QKeySequence>;

constexpr const char* context = "Commands";

// Seen by lupdate: the words are translated where they are shown.
#define WORDS(text) QT_TRANSLATE_NOOP("Commands", text)

QKeySequence with(Qt::KeyboardModifiers modifiers, Qt::Key key) {
    return QKeySequence(QKeyCombination(modifiers, key));
}

QKeySequence plain(Qt::Key key) {
    return QKeySequence(key);
}

constexpr Qt::KeyboardModifier ctrl = Qt::ControlModifier;
constexpr Qt::KeyboardModifier shift = Qt::ShiftModifier;
constexpr Qt::KeyboardModifier alt = Qt::AltModifier;
const Conditions always;

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

void addPlaying(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{PlayPause, Listen, "play-pause", WORDS("Play or pause"), WORDS("Starts and stops the sound"),
          KeyList{plain(Qt::Key_Space)}, RecordingOpen},
         {Earlier, Listen, "earlier", WORDS("A beat earlier"),
          WORDS("Moves the ear back by a beat, or by a second before bars are marked"),
          KeyList{plain(Qt::Key_Left)}, StudyOpen, true, true},
         {Later, Listen, "later", WORDS("A beat later"),
          WORDS("Moves the ear on by a beat, or by a second before bars are marked"),
          KeyList{plain(Qt::Key_Right)}, StudyOpen, false, true},
         {BarEarlier, Listen, "bar-earlier", WORDS("A bar earlier"),
          WORDS("Moves the ear to the bar line before"), KeyList{with(ctrl, Qt::Key_Left)}, StudyOpen, false,
          true},
         {BarLater, Listen, "bar-later", WORDS("A bar later"), WORDS("Moves the ear to the next bar line"),
          KeyList{with(ctrl, Qt::Key_Right)}, StudyOpen, false, true},
         {ToStart, Listen, "to-start", WORDS("To the start"),
          WORDS("Moves the ear to the start of the loop, or of the recording"), KeyList{plain(Qt::Key_Home)},
          StudyOpen}});
}

void addLoopAndSpeed(std::vector<Command>& table) {
    const Conditions heard = RecordingOpen;
    table.insert(
        table.end(),
        {{LoopFromOrToHere, Loops, "loop-here", WORDS("Loop from here, to here"),
          WORDS(
              "First sets the loop's start where the ear is, then its end; takes a selected stretch at once"),
          KeyList{plain(Qt::Key_L)}, heard},
         {LoopPhrase, Loops, "loop-phrase", WORDS("Loop the phrase"),
          WORDS("Makes the phrase under the cursor, or the selected stretch, the loop"),
          KeyList{plain(Qt::Key_P)}, heard},
         {LoopOff, Loops, "loop-off", WORDS("No loop"), WORDS("Lets the music go on past the loop"),
          KeyList{with(shift, Qt::Key_L)}, Loop},
         {LoopStartEarlier, Loops, "loop-start-earlier", WORDS("Loop starts earlier"),
          WORDS("Moves the loop's start back a little"), KeyList{plain(Qt::Key_Comma)}, Loop, false, true},
         {LoopStartLater, Loops, "loop-start-later", WORDS("Loop starts later"),
          WORDS("Moves the loop's start on a little"), KeyList{plain(Qt::Key_Period)}, Loop, false, true},
         {LoopEndEarlier, Loops, "loop-end-earlier", WORDS("Loop ends earlier"),
          WORDS("Moves the loop's end back a little"), KeyList{with(shift, Qt::Key_Comma)}, Loop, false,
          true},
         {LoopEndLater, Loops, "loop-end-later", WORDS("Loop ends later"),
          WORDS("Moves the loop's end on a little"), KeyList{with(shift, Qt::Key_Period)}, Loop, false, true},
         {Slower, Loops, "slower", WORDS("Slower"), WORDS("One speed step down, at the same pitch"),
          KeyList{plain(Qt::Key_Minus)}, StudyOpen, true, true},
         {Faster, Loops, "faster", WORDS("Faster"), WORDS("One speed step up, at the same pitch"),
          KeyList{plain(Qt::Key_Equal)}, StudyOpen, false, true},
         {FullSpeed, Loops, "full-speed", WORDS("Full speed"), WORDS("Plays as recorded"),
          KeyList{plain(Qt::Key_0)}, StudyOpen},
         {ClimbOnOrOff, Loops, "climb", WORDS("Climb"),
          WORDS("Lets the speed rise as the loop goes round, or stay"), KeyList{plain(Qt::Key_K)}, Loop},
         {ClimbStepBack, Loops, "climb-back", WORDS("Climb: a step back"),
          WORDS("Falls back by a step of the climb and goes on from there"), KeyList{with(shift, Qt::Key_K)},
          Loop, false, true},
         {ClimbSettings, Loops, "climb-settings", WORDS("Climb: how…"),
          WORDS("Opens the climb's menu on the loop: its step, its passes and its target"),
          KeyList{with(ctrl, Qt::Key_K)}, Loop}});
}

void addPasses(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{GapLonger, Loops, "gap-longer", WORDS("Gap: a beat longer"),
          WORDS("Leaves a beat more of silence after each pass of the loop, to sing or play it back"),
          KeyList{plain(Qt::Key_O)}, Loop, true, true},
         {GapShorter, Loops, "gap-shorter", WORDS("Gap: a beat shorter"),
          WORDS("Takes a beat of silence away after each pass of the loop"), KeyList{with(shift, Qt::Key_O)},
          Loop, false, true},
         {TradeSlower, Loops, "trade-slower", WORDS("Trade: yours slower"),
          WORDS("In trade, your turn goes a speed step slower than now, the record's as before"),
          KeyList{with(ctrl, Qt::Key_Minus)}, StudyOpen, false, true},
         {TradeFaster, Loops, "trade-faster", WORDS("Trade: yours faster"),
          WORDS("In trade, your turn goes a speed step faster than now, the record's as before"),
          KeyList{with(ctrl, Qt::Key_Equal)}, StudyOpen, false, true},
         {TradeAsRecord, Loops, "trade-as-record", WORDS("Trade: yours as the record"),
          WORDS("In trade, both turns go at the same speed"), KeyList{with(ctrl, Qt::Key_0)}, StudyOpen}});
}

void addBandAndHold(std::vector<Command>& table) {
    const Conditions heard = RecordingOpen;
    table.insert(
        table.end(),
        {{NextBand, Listen, "next-band", WORDS("Next band"),
          WORDS("All of the record, only a band of it, all but that band"), KeyList{plain(Qt::Key_B)}, heard,
          true},
         {BandAroundPhrase, Listen, "band-phrase", WORDS("Band around the notes"),
          WORDS("Listens to where the written notes of the phrase lie"), KeyList{with(shift, Qt::Key_B)},
          heard | PhraseHere},
         {BandLowLower, Listen, "band-low-lower", WORDS("Band: low edge lower"),
          WORDS("Lets a semitone more in from below"), KeyList{with(ctrl, Qt::Key_Comma)}, heard, false,
          true},
         {BandLowHigher, Listen, "band-low-higher", WORDS("Band: low edge higher"),
          WORDS("Cuts a semitone more off from below"), KeyList{with(ctrl, Qt::Key_Period)}, heard, false,
          true},
         {BandHighLower, Listen, "band-high-lower", WORDS("Band: high edge lower"),
          WORDS("Cuts a semitone more off from above"), KeyList{with(ctrl | shift, Qt::Key_Comma)}, heard,
          false, true},
         {BandHighHigher, Listen, "band-high-higher", WORDS("Band: high edge higher"),
          WORDS("Lets a semitone more in from above"), KeyList{with(ctrl | shift, Qt::Key_Period)}, heard,
          false, true},
         {HoldHere, Listen, "hold", WORDS("Hold"),
          WORDS("Sustains the instant where the ear is, or lets it go; arrows then move what is held"),
          KeyList{plain(Qt::Key_D)}, heard, true}});
}

void addHearing(std::vector<Command>& table) {
    table.insert(
        table.end(),
        {{NextHearing, Listen, "next-hearing", WORDS("Next way of hearing"),
          WORDS("Record, yours, together, split, trade"), KeyList{plain(Qt::Key_V)}, StudyOpen, true},
         {PreviousHearing, Listen, "previous-hearing", WORDS("Way of hearing before"),
          WORDS("Trade, split, together, yours, record"), KeyList{with(shift, Qt::Key_V)}, StudyOpen},
         {AsPlayed, Listen, "as-played", WORDS("As played, or as written"),
          WORDS("Sounds the written notes as the record plays them, early, late, short and soft, or on the "
                "grid"),
          KeyList{with(shift, Qt::Key_P)}, RecordingOpen | Tempo},
         {NextFocus, Listen, "next-focus", WORDS("Next focus"),
          WORDS("All of a stereo recording, left, right, centre, sides"), KeyList{plain(Qt::Key_F)}, Stereo},
         {PreviousFocus, Listen, "previous-focus", WORDS("Focus before"),
          WORDS("Sides, centre, right, left, all of a stereo recording"), KeyList{with(shift, Qt::Key_F)},
          Stereo}});
}

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

void addPhrasing(std::vector<Command>& table) {
    const Conditions note = NoteSelected;
    table.insert(
        table.end(),
        {{Slide, Notes, "slide", WORDS("Slide"),
          WORDS("Slide in from below, from above, out up, out down, none"), KeyList{plain(Qt::Key_S)}, note,
          true},
         {Grace, Notes, "grace", WORDS("Grace note"), WORDS("A grace note before the selected note"),
          KeyList{plain(Qt::Key_G)}, note},
         {Trill, Notes, "trill", WORDS("Trill"),
          WORDS("A trill to the next note of the key, the other of semitone and whole tone, none"),
          KeyList{plain(Qt::Key_R)}, note},
         {Slur, Notes, "slur", WORDS("Slur"), WORDS("Not picked, but slurred from the note before"),
          KeyList{plain(Qt::Key_U)}, note},
         {Ghost, Notes, "ghost", WORDS("Ghost"), WORDS("A ghosted note"), KeyList{plain(Qt::Key_X)}, note},
         {Accent, Notes, "accent", WORDS("Accent"), WORDS("An accented note"), KeyList{plain(Qt::Key_A)},
          note}});
}

/// Marks that come less often: their letter with Alt.
void addMorePhrasing(std::vector<Command>& table) {
    const Conditions note = NoteSelected;
    table.insert(
        table.end(),
        {{PickedInSlur, Notes, "picked-in-slur", WORDS("Picked in the slur"),
          WORDS("Under the slur of the note before, and picked all the same"), KeyList{with(alt, Qt::Key_P)},
          note, true},
         {HammerPull, Notes, "hammer-pull", WORDS("Hammer-on or pull-off"),
          WORDS("Slurred by the left hand: hammered on upwards, pulled off downwards; again for the other"),
          KeyList{with(alt, Qt::Key_H)}, note},
         {SlideOn, Notes, "slide-on", WORDS("Slide to the next note"),
          WORDS("The finger slides on to the next note"), KeyList{with(alt, Qt::Key_S)}, note},
         {BendNote, Notes, "bend", WORDS("Bend"),
          WORDS(
              "Bent up a whole tone, a semitone, a quarter tone, up and released, bent before and let down"),
          KeyList{with(alt, Qt::Key_B)}, note},
         {Scoop, Notes, "scoop", WORDS("Scoop"), WORDS("Bent up into from just below"),
          KeyList{with(alt, Qt::Key_C)}, note},
         {Fall, Notes, "fall", WORDS("Fall"), WORDS("Falls off at its end"), KeyList{with(alt, Qt::Key_F)},
          note},
         {Vibrato, Notes, "vibrato", WORDS("Vibrato"), WORDS("A note with vibrato"),
          KeyList{with(alt, Qt::Key_V)}, note},
         {MoreGrace, Notes, "more-grace", WORDS("One more grace note"),
          WORDS("A grace note before those that are there, a step of the key further away"),
          KeyList{with(alt, Qt::Key_G)}, note},
         {TurnNote, Notes, "turn", WORDS("Turn"), WORDS("A turn from above, from below, none"),
          KeyList{with(alt, Qt::Key_T)}, note},
         {MordentNote, Notes, "mordent", WORDS("Mordent"),
          WORDS("A mordent with the lower note, the upper note, none"), KeyList{with(alt, Qt::Key_M)}, note},
         {Staccato, Notes, "staccato", WORDS("Staccato"), WORDS("A short note"),
          KeyList{with(alt, Qt::Key_D)}, note},
         {Tenuto, Notes, "tenuto", WORDS("Tenuto"), WORDS("A note held for its full length"),
          KeyList{with(alt, Qt::Key_N)}, note},
         {LetRing, Notes, "let-ring", WORDS("Let ring"), WORDS("Sounds on after its length"),
          KeyList{with(alt, Qt::Key_R)}, note},
         {MarkHigher, Notes, "mark-higher", WORDS("Mark: higher"),
          WORDS("The mark set last goes further: a wider trill, a deeper bend, a higher grace note"),
          KeyList{with(alt, Qt::Key_PageUp)}, note, false, true},
         {MarkLower, Notes, "mark-lower", WORDS("Mark: lower"),
          WORDS("The mark set last goes less far: a narrower trill, a lesser bend, a lower grace note"),
          KeyList{with(alt, Qt::Key_PageDown)}, note, false, true},
         {MarksMenu, Notes, "marks", WORDS("All marks…"),
          WORDS("Opens the list of marks at the selected note, with a letter for each"),
          KeyList{with(shift, Qt::Key_N)}, note}});
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

/// Staff and tablature under the grid. Letters as for the page itself, which has E.
void addPage(std::vector<Command>& table) {
    const auto add = [&](CommandId id, const char* word, const char* name, const char* about, KeyList keys,
                         bool startsGroup = false) {
        table.push_back({id, Page, word, name, about, std::move(keys), StudyOpen, startsGroup});
    };
    add(ShowPage, "page", WORDS("Staff and tablature"),
        WORDS("Shows the phrase as it is engraved under the grid, or puts it away"),
        {with(shift, Qt::Key_E)});
    add(NextReading, "page-reading", WORDS("Next reading"),
        WORDS("Writes the page as the notes sound, for B♭ and E♭ instruments, tenor, baritone, guitar"),
        {with(alt | shift, Qt::Key_R)}, true);
    add(NextClef, "page-clef", WORDS("Next clef"),
        WORDS("The clef that fits the line, treble, treble sounding an octave lower, bass"),
        {with(alt | shift, Qt::Key_C)});
    add(PageTablature, "page-tablature", WORDS("Tablature on the page"),
        WORDS("Shows the tablature under the staff, or only the staff"), {with(alt | shift, Qt::Key_T)},
        true);
    add(PageChords, "page-chords", WORDS("Chord symbols on the page"),
        WORDS("Shows the chord symbols over the staff, or none"), {with(alt | shift, Qt::Key_K)});
    add(PageDegrees, "page-degrees", WORDS("Degrees on the page"),
        WORDS("Shows what each note is on its chord, or not"), {with(alt | shift, Qt::Key_D)});
    add(PageLarger, "page-larger", WORDS("Larger page"), WORDS("Draws staff and tablature larger"),
        {with(alt | shift, Qt::Key_Up)}, true);
    add(PageSmaller, "page-smaller", WORDS("Smaller page"), WORDS("Draws staff and tablature smaller"),
        {with(alt | shift, Qt::Key_Down)});
    add(PageChoices, "page-menu", WORDS("All choices of the page…"),
        WORDS("Opens the page's menu, with the strings of the selected note"), {with(alt | shift, Qt::Key_E)},
        true);
    add(Strings, "strings", WORDS("Strings and tuning…"),
        WORDS("Says how the instrument of the tablature is tuned, with how many strings, frets and a capo"),
        {});
}

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

#undef WORDS

std::vector<Command> makeTable() {
    std::vector<Command> table;
    addStudyAndEdit(table);
    addPlaying(table);
    addLoopAndSpeed(table);
    addPasses(table);
    addHearing(table);
    addBandAndHold(table);
    addPitchAndLoudness(table);
    addMark(table);
    addWriting(table);
    addPhrasing(table);
    addMorePhrasing(table);
    addStrings(table);
    addSelecting(table);
    addPageMarks(table);
    addDividing(table);
    addPage(table);
    addCheckAndHelp(table);
    return table;
}

} // namespace

QString Command::translatedName() const {
    return QCoreApplication::translate(context, name);
}

QString Command::translatedAbout() const {
    return QCoreApplication::translate(context, about);
}

const std::vector<Command>& commandTable() {
    static const std::vector<Command> table = makeTable();
    return table;
}

const Command& command(CommandId id) {
    const auto& table = commandTable();
    const auto found =
        std::find_if(table.begin(), table.end(), [id](const Command& c) { return c.id == id; });
    assert(found != table.end());
    return *found;
}

QString translatedName(CommandMenu menu) {
    static constexpr std::array<const char*, 10> names{
        QT_TRANSLATE_NOOP("Commands", "Study"),  QT_TRANSLATE_NOOP("Commands", "Edit"),
        QT_TRANSLATE_NOOP("Commands", "Listen"), QT_TRANSLATE_NOOP("Commands", "Loop"),
        QT_TRANSLATE_NOOP("Commands", "Sound"),  QT_TRANSLATE_NOOP("Commands", "Mark"),
        QT_TRANSLATE_NOOP("Commands", "Notes"),  QT_TRANSLATE_NOOP("Commands", "Page"),
        QT_TRANSLATE_NOOP("Commands", "Check"),  QT_TRANSLATE_NOOP("Commands", "Help")};
    return QCoreApplication::translate(context, names[static_cast<std::size_t>(menu)]);
}

} // namespace earwright::ui
