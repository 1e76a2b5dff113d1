// The menu Listen: where the ear is, and what is heard.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

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

} // namespace earwright::ui::rows
