// Everything the note grid shows, as one value that the painters read and never change.
#pragma once

#include "core/check/HintLadder.h"
#include "core/check/PhraseCheck.h"
#include "core/check/PhrasingMark.h"
#include "core/engraving/WrittenNames.h"
#include "core/study/Study.h"
#include "ui/grid/ChordRows.h"
#include "ui/grid/ColumnEvidence.h"
#include "ui/grid/GridColumns.h"
#include "ui/grid/GridCursor.h"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <vector>

namespace earwright::ui {

struct GridScene {
    /// Takes a study to be shown, and its meters with it.
    void show(std::shared_ptr<const Study> shown);
    /// Names the notes of the study shown, unless they are. Not while a note is dragged: the whole line is
    /// spelled.
    void nameNotes();

    /// While a gesture is on, the study as it would be after it. Never null once columns are there.
    std::shared_ptr<const Study> study;
    /// The study's, made once: painters ask at every note.
    MeterMap meters;
    GridColumns columns;
    ChordRows chords;
    /// At concert pitch.
    WrittenNames names;
    GridCursor cursor;
    /// The note at the cursor, on which the keys for notes act.
    std::optional<NoteId> selected;
    /// Notes chosen with it: pitch, loudness and marks are set on all of them, place and length on the note
    /// at the cursor alone.
    std::set<NoteId> alsoSelected;
    /// Only after the user asked for a check; the notes of phrases beside the one shown are in it too.
    std::optional<PhraseCheck> check;
    /// Notes that were changed or written since it, as the view says in words.
    std::set<NoteId> unjudged;
    /// What the recording says to the written signs, once it was asked for how the notes are played.
    std::map<NoteId, std::vector<MarkAnswer>> markAnswers;
    /// As far as each place of the check has been opened, and no further.
    std::vector<Hint> hints;
    std::optional<ColumnEvidence> evidence;
    /// In beats, where the ear is.
    std::optional<double> playhead;
    bool hasFocus = false;
    /// The study that `names` are of.
    std::shared_ptr<const Study> named;

    /// What the row is called where the cursor is: as the note there is written, else as the chord has it.
    RowName rowAtCursor() const;
    /// At the cursor or beside it.
    bool isChosen(NoteId note) const { return selected == note || alsoSelected.contains(note); }
    /// What is said to its signs, where that was asked for.
    std::span<const MarkAnswer> answersTo(const Note& note) const;
    /// What the check heard of its trill, where answersTo() says nothing of it.
    std::optional<MarkAnswer> trillAnswer(const Note& note) const;
    /// All chosen notes in the order of the line.
    std::vector<NoteId> selectedNotes() const;
};

} // namespace earwright::ui
