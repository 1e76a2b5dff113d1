// The menu Loop: the loop, its speed and its passes.
#include "ui/commands/CommandRows.h"

namespace earwright::ui::rows {

using enum CommandId;
using enum CommandMenu;
using enum Condition;

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

} // namespace earwright::ui::rows
