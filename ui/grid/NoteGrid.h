// The note grid: the bars of the current phrase as columns and rows, in which the notes are filled in.
#pragma once

#include "core/check/HintLadder.h"
#include "core/check/PhraseCheck.h"
#include "core/study/Study.h"
#include "ui/commands/KeyWords.h"
#include "ui/grid/GridEdits.h"
#include "ui/grid/GridGeometry.h"
#include "ui/grid/GridScene.h"
#include "ui/grid/NoteTool.h"

#include <QAbstractScrollArea>

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace earwright::ui {

class InlineEditor;
class PhrasingBar;

/// Shows bars of a study and turns keys and gestures into edits, which it hands out and never applies itself:
/// whoever owns the study gives it back through setStudy().
///
/// Threads: interface only.
class NoteGrid : public QAbstractScrollArea {
    Q_OBJECT
public:
    explicit NoteGrid(QWidget* parent = nullptr);

    // What is shown. -------------------------------------------------------------------------------------
    /// Null shows an empty grid with a word of advice.
    void setStudy(std::shared_ptr<const Study> study);
    /// The bars a phrase lies in, following it when its marks move.
    void setPhrase(SpanId phrase);
    /// The whole bars a range touches; an empty range shows none.
    void setRange(const Range<Beats>& range);
    void setPlayhead(Seconds time);
    /// Shows how the study would be, until it changes or null is given; edits still begin from the study.
    void preview(std::shared_ptr<const Study> draft);
    /// Verdicts of the phrase and of those beside it, and their notes that were changed or written since;
    /// null takes them away.
    void setCheck(const PhraseCheck* check, std::set<NoteId> unjudged = {});
    /// What the recording says to the written signs of notes; none takes them away.
    void setMarkAnswers(std::map<NoteId, std::vector<MarkAnswer>> answers);
    /// The places of the check for which help was opened, each as far as it was.
    void setHints(std::vector<Hint> hints);
    /// For the last step of the ladder, one place at a time.
    void setEvidence(std::optional<ColumnEvidence> evidence);
    const std::optional<ColumnEvidence>& evidence() const { return scene.evidence; }

    bool hasColumns() const { return !scene.columns.isEmpty(); }
    const Range<Beats>& shownBars() const { return scene.columns.range(); }
    const GridCursor& cursor() const { return scene.cursor; }
    std::optional<NoteId> selectedNote() const { return scene.selected; }
    /// With those chosen beside it, in the order of the line.
    std::vector<NoteId> selectedNotes() const { return scene.selectedNotes(); }
    /// Back to the note at the cursor; false where there were no others.
    bool dropSelection();
    /// The mark whose value stepMark() changes.
    std::optional<PhrasingKind> markInHand() const;
    /// The key each command has now, for tooltips, the menu of marks and the word of advice.
    void setKeys(KeyOf keys);
    const GridGeometry& geometryOfCells() const { return geometry; }
    /// "bar 30, beat 2½, ♭3 D5": where the cursor is, for screen readers; "column 4 of 7" after the beat
    /// where its columns are told by no fraction.
    QString cursorText() const;

    /// The cursor to a place, and to the note that begins there, if one does.
    void goTo(const Beats& place);
    void goToNote(NoteId id);

public slots:
    // What keys do. Nothing happens without columns, or without a selected note where one is needed. ------
    void noteInOrOut();
    void removeNote();
    /// Right and up are positive.
    void moveCursor(int columns, int semitones);
    /// To the next or previous column and the note that begins there; its slice of the record is asked for.
    void stepColumn(int columns);
    void changeLength(int columns);
    void moveNote(int columns, int semitones);
    /// The cursor's note gets a pitch, or one is written there, and the cursor goes on; nothing sounds. False
    /// where there is nothing to go on to. Requires: a pitch of a line.
    bool enterPitch(int midi);
    /// One more pitch where enterPitch() wrote last; the cursor stays. Requires: a pitch of a line.
    void enterPitchBeside(int midi);
    /// The chosen notes evenly over the beats they lie in.
    void spreadNotes();
    /// The next name the chosen notes can have on the page, and at last their own again.
    void respellNotes();
    void togglePhrasing(earwright::PhrasingKind kind);
    /// The value of the mark set last, or of the first that has one: a step up or down.
    void stepMark(int by);
    void addGrace();
    /// All marks in a menu at the note.
    void openMarks();
    /// The next note (+1) or the note before (−1) as well, from where the selection began.
    void extendSelection(int notes);
    void selectAll();
    // At the selected note or the cursor's column; hairpins over all selected notes. -----------------------
    /// One step louder (+1) or softer (−1), from the level that stands there.
    void stepDynamic(int by);
    void toggleHairpin(earwright::HairpinKind kind);
    void askForWords(bool below);
    /// Takes dynamics, words and hairpins away.
    void clearPageMarks();
    /// Divides the cursor's beat into 1 to 12.
    void setDivision(int parts);
    void divideBeat(const Beats& beat, int parts);
    /// One step louder (+1) or softer (−1).
    void changeLoudness(int steps);

signals:
    /// The study after an edit, and the edit's name for the undo menu.
    void edited(const earwright::Study& study, const QString& what);
    /// A note to be sounded at once; loudness 0 to 1, ghost and accent applied.
    void audition(int midi, double loudness);
    /// A slice of the record to be sounded once.
    void sliceRequested(const earwright::Range<earwright::Seconds>& slice);
    /// A click over the cells: the ear is to go there.
    void placeChosen(earwright::Seconds time);
    void selectionChanged();
    /// To another place, be a note there or not; told before the selection that changes with it.
    void cursorMoved(const earwright::Beats& place);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    /// The second press of a quick pair is one like the first.
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool viewportEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool event(QEvent* event) override;
    /// With columns Tab is for them; without any it leaves the grid.
    bool focusNextPrevChild(bool next) override {
        return !hasColumns() && QAbstractScrollArea::focusNextPrevChild(next);
    }

private:
    void layOutBars();
    void layOutCells();
    void keepSelectionInSight();
    Range<Beats> rangeWanted() const;
    void updateSelection();
    /// Says so where other notes are chosen than when it was last said.
    void announceSelection();
    /// For those who listen to the screen: the cursor's place, the note there and what the check says of it.
    void describe();
    void placePhrasingBar();
    void showEvidenceRows();
    void scrollToRows(int lowest, int highest);
    void scrollToCursor();
    bool isCursorSeen() const;
    void centreOnNotes();
    void setCursor(const GridCursor& cursor);
    /// With these notes chosen besides the one at the cursor.
    void putCursor(const GridCursor& cursor, std::set<NoteId> also, std::optional<NoteId> anchor);
    void apply(std::optional<GridEdit> edit);
    void sound(const Study& study, NoteId id);
    void showDraft();
    void cancelGesture();
    void scrollTowards(QPointF at);
    QString tipAt(QPointF at) const;
    void pressAboveCells(QPointF at);
    void offerDivisions(const Beats& beat, QPoint at);
    /// For a column of the lane under the cells.
    void offerPageMarks(const Range<Beats>& column, QPoint where);
    void askForWords(const Beats& at, bool below);
    /// The selected note begins there, so that marks asked for there are its own.
    bool isSelectedNoteIn(const Range<Beats>& column) const;
    Beats markPlace() const;
    Range<Beats> markRange() const;
    void updatePointer(QPointF at);
    void updatePlayheadStrip(double beats);
    const Note* noteUnderCursor() const;
    void choose(std::set<NoteId> notes, NoteId atCursor);
    void chooseUpTo(NoteId far);
    void chooseOneMore(NoteId id);
    QString advice() const;
    QString columnText() const;
    /// What has been told of the place at the cursor; empty where no help was opened for it.
    QString helpAtCursor() const;

    KeyOf keyOf = tableKey;
    /// The study as it was handed over; the scene's may be a gesture's draft.
    std::shared_ptr<const Study> study;
    std::shared_ptr<const Study> previewed;
    std::optional<SpanId> phrase;
    Range<Beats> wanted;
    GridScene scene;
    GridGeometry geometry;
    NoteTool tool;
    PhrasingBar* phrasingBar;
    /// For free words, in the lane under the cells.
    InlineEditor* wordsField;
    /// Once the user chose the note; not when a phrase just came into view.
    bool isPhrasingOffered = false;
    /// The mark set last, until another note is chosen.
    std::optional<PhrasingKind> inHand;
    /// What enterPitch() wrote last.
    std::optional<NoteId> enteredNote;
    std::vector<NoteId> announced;
    /// Where a selection of several notes began.
    std::optional<NoteId> selectionAnchor;
};

} // namespace earwright::ui
