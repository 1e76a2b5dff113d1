// What a pitch that was played or sung does to the note at the grid's cursor.
#pragma once

#include "core/study/Study.h"
#include "ui/grid/GridColumns.h"
#include "ui/grid/GridCursor.h"

#include <optional>

namespace earwright::ui {

/// The study with the pitch taken in, and where the cursor goes on to.
struct PitchEntry {
    Study study;
    NoteId note;
    /// The note that follows where one was given its pitch, else the next column; nothing behind the last.
    std::optional<GridCursor> next;
};

/// Gives the note at the cursor this pitch: the one in its cell, else the first that begins in its column.
/// Where there is none, writes one a column long. Columns must be those of the study, and not empty.
/// Requires: a pitch of a line.
PitchEntry entered(const Study& study, const GridColumns& columns, const GridCursor& cursor, int midi);

/// Another pitch beside a note, as long as it is: a double stop. The study as it was where the note is gone
/// or its place has that pitch. Requires: a pitch of a line.
Study enteredBeside(const Study& study, NoteId note, int midi);

} // namespace earwright::ui
