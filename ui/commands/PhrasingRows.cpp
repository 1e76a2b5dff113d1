// The menu Notes: the marks of a note.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

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

} // namespace earwright::ui::rows
