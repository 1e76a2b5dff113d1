// What must be so before a command makes sense; a command is offered when all it needs is there.
#pragma once

#include <QFlags>

namespace earwright::ui {

enum class Condition {
    StudyOpen = 1 << 0,
    RecordingOpen = 1 << 1, ///< its samples can be heard, not only its name is known
    CanUndo = 1 << 2,
    CanRedo = 1 << 3,
    Loop = 1 << 4,
    Tempo = 1 << 5,      ///< two bar or beat marks: beats have a place in time
    MarkHere = 1 << 6,   ///< a bar or beat mark where the ear is
    Stretch = 1 << 7,    ///< something is selected on the sheet, or looped
    SpanHere = 1 << 8,   ///< a phrase, chorus or section where the ear is
    PhraseHere = 1 << 9, ///< a phrase under the cursor
    Phrases = 1 << 10,   ///< any phrase at all
    Grid = 1 << 11,      ///< the grid has columns to write in
    NoteSelected = 1 << 12,
    Places = 1 << 13, ///< a check of the phrase under the cursor left places to find
    LooseEnds = 1 << 14,
    NearLooseEnd = 1 << 15,
    Stereo = 1 << 16,         ///< the recording can be heard and has two channels
    OffPitch = 1 << 17,       ///< the recording's own A is known and is not the user's
    Proposal = 1 << 18,       ///< beats are proposed and wait to be accepted
    ChordAnswer = 1 << 19,    ///< the chord where the ear is was checked
    WrittenHere = 1 << 20,    ///< a phrase under the cursor, or notes around it that are in none
    WrittenToCheck = 1 << 21, ///< that, or notes in the stretch that is selected or looped around the cursor
};
Q_DECLARE_FLAGS(Conditions, Condition)
Q_DECLARE_OPERATORS_FOR_FLAGS(Conditions)

} // namespace earwright::ui
