// What the keys of the note grid do to the study: each answers with the study afterwards, or with nothing.
#pragma once

#include "core/engraving/WrittenNames.h"
#include "core/music/PhrasingKind.h"
#include "core/study/Study.h"
#include "ui/grid/GridColumns.h"
#include "ui/grid/GridCursor.h"

#include <QString>

#include <optional>
#include <vector>

namespace earwright::ui {

/// An edit and what the grid does after it.
struct GridEdit {
    Study study;
    /// As the undo menu names it: "write note".
    QString name;
    /// The note the edit was about, if it still is there.
    std::optional<NoteId> note;
    /// Where the cursor goes with it.
    std::optional<GridCursor> cursor;
    /// The note is sounded.
    bool audible = false;
};

/// The note that is written in a cell: of this pitch, and sounding anywhere in the column. Points into study.
const Note* noteInCell(const Study& study, const GridColumn& column, int midi);

// All: nothing where the edit would change nothing. Columns must be those of the study, and not empty.

/// Writes a note one column long in the cursor's cell, or takes out the one that is there.
std::optional<GridEdit> noteInOrOut(const Study& study, const GridColumns& columns, const GridCursor& cursor);
std::optional<GridEdit> removed(const Study& study, const std::vector<NoteId>& notes);
/// The note's end moved by whole columns, over bar lines and past the bars shown, no shorter than up to the
/// first line after its onset.
std::optional<GridEdit> lengthened(const Study& study, NoteId id, int steps);
/// The note moved by whole columns and by semitones, keeping its length.
std::optional<GridEdit> moved(const Study& study, const GridColumns& columns, NoteId id, int steps,
                              int semitones);
/// All of them by semitones; nothing where one would leave the pitches of a line.
std::optional<GridEdit> transposed(const Study& study, const std::vector<NoteId>& notes, int semitones);
/// The notes given a mark of phrasing, the next setting of it, or rid of it.
std::optional<GridEdit> phrased(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind);
/// The value of a mark one step up or down.
std::optional<GridEdit> revalued(const Study& study, const std::vector<NoteId>& notes, PhrasingKind kind,
                                 int by);
std::optional<GridEdit> graced(const Study& study, const std::vector<NoteId>& notes);
/// Evenly over the beats they lie in; nothing where spreadEvenly() changes nothing.
std::optional<GridEdit> spread(const Study& study, const std::vector<NoteId>& notes);
/// Each given its next name on the page, where `names` are those of the study; nothing sounds.
std::optional<GridEdit> respelled(const Study& study, const WrittenNames& names,
                                  const std::vector<NoteId>& notes);
/// Louder or softer, by a share of the whole range.
std::optional<GridEdit> louder(const Study& study, const std::vector<NoteId>& notes, double by);
/// The beat divided into 1 to 12; nothing for other numbers. Notes that are there keep their places.
std::optional<GridEdit> divided(const Study& study, const Beats& beat, int parts);

} // namespace earwright::ui
