// Everything the note grid shows, as one value that the painters read and never change.
#pragma once

#include "core/check/HintLadder.h"
#include "core/check/PhraseCheck.h"
#include "core/study/Study.h"
#include "ui/grid/ChordRows.h"
#include "ui/grid/ColumnEvidence.h"
#include "ui/grid/GridColumns.h"
#include "ui/grid/GridCursor.h"

#include <memory>
#include <optional>
#include <vector>

namespace earwright::ui {

struct GridScene {
    /// While a gesture is on, the study as it would be after it. Never null once columns are there.
    std::shared_ptr<const Study> study;
    GridColumns columns;
    ChordRows chords;
    GridCursor cursor;
    /// The note the phrasing keys act on.
    std::optional<NoteId> selected;
    /// Only after the user asked for a check.
    std::optional<PhraseCheck> check;
    /// As far as each place of the check has been opened, and no further.
    std::vector<Hint> hints;
    std::optional<ColumnEvidence> evidence;
    /// In beats, where the ear is.
    std::optional<double> playhead;
    bool hasFocus = false;
};

} // namespace earwright::ui
