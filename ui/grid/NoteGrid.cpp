#include "ui/grid/NoteGrid.h"

#include "ui/grid/GroundPainter.h"
#include "ui/grid/HelpPainter.h"
#include "ui/grid/NotePainter.h"
#include "ui/grid/PageMarkPainter.h"
#include "ui/grid/PhrasingBar.h"
#include "ui/grid/PhrasingPlace.h"
#include "ui/theme/InlineEditor.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"
#include "ui/theme/Type.h"

#include <QPaintEvent>
#include <QPainter>
#include <QResizeEvent>
#include <QScrollBar>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

/// Rows kept in sight around the cursor.
constexpr int rowsAround = 2;
/// Where the cursor comes to stand after a page turn, as a share of the width.
constexpr double pageAhead = 0.2;

} // namespace

NoteGrid::NoteGrid(QWidget* parent)
    : QAbstractScrollArea(parent),
      phrasingBar(new PhrasingBar(viewport())),
      wordsField(new InlineEditor(viewport())) {
    setFrameShape(QFrame::NoFrame);
    setAccessibleName(tr("Note grid"));
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(260, 220);
    viewport()->setMouseTracking(true);
    viewport()->setAutoFillBackground(false);
    horizontalScrollBar()->setSingleStep(static_cast<int>(GridGeometry::narrowestBeat));
    verticalScrollBar()->setSingleStep(static_cast<int>(GridGeometry::rowHeight));
    phrasingBar->hide();
    wordsField->setFont(ui::font(TextStyle::Small));
    connect(phrasingBar, &PhrasingBar::chosen, this, &NoteGrid::togglePhrasing);
    connect(phrasingBar, &PhrasingBar::moreGraceChosen, this, &NoteGrid::addGrace);
    connect(phrasingBar, &PhrasingBar::valueStepped, this, &NoteGrid::stepMark);
}

void NoteGrid::setKeys(KeyOf keys) {
    keyOf = std::move(keys);
    phrasingBar->setKeys(keyOf);
    viewport()->update();
}

// What is shown
// ----------------------------------------------------------------------------------------------

void NoteGrid::setStudy(std::shared_ptr<const Study> given) {
    // What else changes meanwhile (the speed of a climb, an answer of the check) must not end a gesture.
    if (tool.isActive() && !(given && tool.goOn(given))) tool.cancel();
    study = std::move(given);
    previewed.reset();
    layOutBars();
}

void NoteGrid::preview(std::shared_ptr<const Study> draft) {
    previewed = std::move(draft);
    layOutBars();
}

void NoteGrid::setPhrase(SpanId chosen) {
    if (phrase == chosen) return;
    tool.cancel();
    phrase = chosen;
    wanted = {};
    isPhrasingOffered = false;
    layOutBars();
    centreOnNotes();
}

void NoteGrid::setRange(const Range<Beats>& range) {
    if (!phrase && wanted == range) return;
    tool.cancel();
    phrase.reset();
    wanted = range;
    isPhrasingOffered = false;
    layOutBars();
    centreOnNotes();
}

Range<Beats> NoteGrid::rangeWanted() const {
    if (!study || !study->beatMap.hasTempo()) return {};
    const Span* span = phrase ? study->span(*phrase) : nullptr;
    return span ? study->beatsOf(*span) : wanted;
}

void NoteGrid::layOutBars() {
    const Range<Beats> range = rangeWanted();
    scene.show(previewed ? previewed : tool.isActive() ? tool.draft() : study);
    scene.columns = study ? GridColumns(*scene.study, range) : GridColumns();
    scene.nameNotes();
    scene.chords = study ? ChordRows(*study, scene.columns.range()) : ChordRows();
    if (hasColumns() && !scene.columns.range().contains(scene.cursor.place)) {
        const std::vector<Note> notes = study->notesIn(scene.columns.range());
        scene.cursor.place = notes.empty() ? scene.columns.range().begin : notes.front().onset;
        if (!notes.empty()) scene.cursor.midi = notes.front().pitch.midi;
    }
    keepSelectionInSight();
    layOutCells();
    updateSelection();
    viewport()->update();
}

void NoteGrid::layOutCells() {
    const QSizeF view = viewport()->size();
    const QSizeF range = GridGeometry(scene.columns, view).scrollRange();
    horizontalScrollBar()->setRange(0, qRound(range.width()));
    verticalScrollBar()->setRange(0, hasColumns() ? qRound(range.height()) : 0);
    horizontalScrollBar()->setPageStep(viewport()->width());
    verticalScrollBar()->setPageStep(viewport()->height());
    geometry = GridGeometry(scene.columns, view,
                            QPointF(horizontalScrollBar()->value(), verticalScrollBar()->value()));
}

void NoteGrid::setCheck(const PhraseCheck* check, std::set<NoteId> unjudged) {
    scene.check = check ? std::optional(*check) : std::nullopt;
    scene.unjudged = check ? std::move(unjudged) : std::set<NoteId>();
    describe();
    viewport()->update();
}

void NoteGrid::setMarkAnswers(std::map<NoteId, std::vector<MarkAnswer>> answers) {
    if (answers == scene.markAnswers) return;
    scene.markAnswers = std::move(answers);
    describe();
    viewport()->update();
}

void NoteGrid::setHints(std::vector<Hint> hints) {
    scene.hints = std::move(hints);
    describe();
    viewport()->update();
}

void NoteGrid::setEvidence(std::optional<ColumnEvidence> evidence) {
    scene.evidence = std::move(evidence);
    if (scene.evidence) showEvidenceRows();
    placePhrasingBar();
    viewport()->update();
}

void NoteGrid::showEvidenceRows() {
    const std::vector<PitchStrength>& pitches = scene.evidence->pitches;
    const auto strongest =
        std::max_element(pitches.begin(), pitches.end(), [](const PitchStrength& a, const PitchStrength& b) {
            return a.strength < b.strength;
        });
    if (strongest == pitches.end()) return;
    if (const auto& rivals = scene.evidence->rivals; !rivals.empty())
        scrollToRows(rivals.front().midi, rivals.back().midi);
    scrollToRows(strongest->midi - rowsAround, strongest->midi + rowsAround);
}

void NoteGrid::setPlayhead(Seconds time) {
    if (!hasColumns()) return;
    const double beats = study->beatMap.beatsAt(time);
    if (scene.playhead == beats) return;
    const QRectF cells = geometry.cells();
    const auto isSeen = [&](double x) { return x >= cells.left() && x <= cells.right(); };
    const bool wasSeen = scene.playhead && isSeen(geometry.x(*scene.playhead));
    const Range<Beats> bars = scene.columns.range();
    const bool inBars = beats >= bars.begin.toDouble() && beats < bars.end.toDouble();
    updatePlayheadStrip(scene.playhead.value_or(beats));
    scene.playhead = beats;
    // The page is turned when the ear leaves what is seen, not when the user has looked elsewhere.
    if (wasSeen && inBars && !isSeen(geometry.x(beats)))
        horizontalScrollBar()->setValue(horizontalScrollBar()->value() +
                                        qRound(geometry.x(beats) - cells.left() - geometry.beatWidth() / 2));
    updatePlayheadStrip(beats);
}

void NoteGrid::updatePlayheadStrip(double beats) {
    viewport()->update(
        QRectF(geometry.x(beats) - playheadFoot - 1, 0, 2 * playheadFoot + 2, viewport()->height())
            .toAlignedRect());
}

// The cursor
// -------------------------------------------------------------------------------------------------

const Note* NoteGrid::noteUnderCursor() const {
    if (!hasColumns()) return nullptr;
    const GridCursor& cursor = scene.cursor;
    for (const Note& note : scene.study->notes)
        if (note.pitch.midi == cursor.midi && note.range().contains(cursor.place)) return &note;
    return noteInCell(*scene.study, scene.columns[scene.columns.indexAt(cursor.place)], cursor.midi);
}

void NoteGrid::updateSelection() {
    const Note* note = noteUnderCursor();
    const std::optional<NoteId> now = note ? std::optional(note->id) : std::nullopt;
    const bool changed = now != scene.selected;
    scene.selected = now;
    if (changed) inHand.reset();
    if (!now) scene.alsoSelected.clear();
    placePhrasingBar();
    describe();
    announceSelection();
}

void NoteGrid::announceSelection() {
    std::vector<NoteId> chosen = scene.selectedNotes();
    if (chosen == announced) return;
    announced = std::move(chosen);
    emit selectionChanged();
}

void NoteGrid::setCursor(const GridCursor& cursor) {
    const bool moved = cursor != scene.cursor;
    if (moved) return putCursor(cursor, {}, std::nullopt);
    putCursor(cursor, scene.alsoSelected, selectionAnchor);
}

void NoteGrid::putCursor(const GridCursor& cursor, std::set<NoteId> also, std::optional<NoteId> anchor) {
    const bool isElsewhere = cursor.place != scene.cursor.place;
    scene.cursor = cursor;
    if (isElsewhere) emit cursorMoved(cursor.place);
    scene.alsoSelected = std::move(also);
    selectionAnchor = anchor;
    isPhrasingOffered = true;
    scrollToCursor();
    updateSelection();
    viewport()->update();
}

void NoteGrid::goTo(const Beats& place) {
    if (!hasColumns() || !scene.columns.range().contains(place)) return;
    GridCursor cursor{place, scene.cursor.midi};
    const Range<Beats> column = scene.columns[scene.columns.indexAt(place)].range;
    const std::vector<Note> begun = study->notesIn(column);
    const bool stays = std::any_of(begun.begin(), begun.end(),
                                   [&](const Note& note) { return note.pitch.midi == cursor.midi; });
    if (!begun.empty() && !stays) cursor.midi = begun.front().pitch.midi;
    setCursor(cursor);
}

void NoteGrid::goToNote(NoteId id) {
    const Note* note = study ? study->note(id) : nullptr;
    if (note && hasColumns() && scene.columns.range().contains(note->onset))
        setCursor({note->onset, note->pitch.midi});
}

void NoteGrid::moveCursor(int columns, int semitones) {
    if (!hasColumns()) return;
    GridCursor cursor = scene.cursor;
    if (columns != 0) {
        const auto last = static_cast<int>(scene.columns.size()) - 1;
        const int index =
            std::clamp(static_cast<int>(scene.columns.indexAt(cursor.place)) + columns, 0, last);
        cursor.place = scene.columns[static_cast<std::size_t>(index)].range.begin;
    }
    cursor.midi = std::clamp(cursor.midi + semitones, lowestMidi, highestMidi);
    setCursor(cursor);
}

void NoteGrid::stepColumn(int columns) {
    if (!hasColumns()) return;
    const auto last = static_cast<int>(scene.columns.size()) - 1;
    const int index =
        std::clamp(static_cast<int>(scene.columns.indexAt(scene.cursor.place)) + columns, 0, last);
    const GridColumn column = scene.columns[static_cast<std::size_t>(index)];
    goTo(column.range.begin);
    emit sliceRequested(study->beatMap.seconds(column.range));
}

// Scrolling
// --------------------------------------------------------------------------------------------------

void NoteGrid::scrollToRows(int lowest, int highest) {
    const QRectF cells = geometry.cells();
    const double over = cells.top() - geometry.row(highest).top();
    const double under = geometry.row(lowest).bottom() - cells.bottom();
    QScrollBar* bar = verticalScrollBar();
    if (over > 0)
        bar->setValue(bar->value() - qRound(over));
    else if (under > 0)
        bar->setValue(bar->value() + qRound(under));
}

bool NoteGrid::isCursorSeen() const {
    if (!hasColumns()) return false;
    const GridColumn column = scene.columns[scene.columns.indexAt(scene.cursor.place)];
    return geometry.cells().contains(geometry.cell(column, scene.cursor.midi).center());
}

void NoteGrid::scrollToCursor() {
    scrollToRows(scene.cursor.midi - rowsAround, scene.cursor.midi + rowsAround);
    const QRectF cell =
        geometry.cell(scene.columns[scene.columns.indexAt(scene.cursor.place)], scene.cursor.midi);
    const QRectF cells = geometry.cells();
    // The page is turned so that most of it lies ahead in the direction of going.
    QScrollBar* bar = horizontalScrollBar();
    const double ahead = cells.width() * pageAhead;
    if (cell.left() < cells.left())
        bar->setValue(bar->value() - qRound(cells.right() - ahead - cell.right()));
    else if (cell.right() > cells.right())
        bar->setValue(bar->value() + qRound(cell.left() - cells.left() - ahead));
}

void NoteGrid::centreOnNotes() {
    if (!hasColumns()) return;
    int lowest = scene.cursor.midi;
    int highest = scene.cursor.midi;
    for (const Note& note : study->notesIn(scene.columns.range())) {
        lowest = std::min(lowest, note.pitch.midi);
        highest = std::max(highest, note.pitch.midi);
    }
    const QRectF cells = geometry.cells();
    QScrollBar* bar = verticalScrollBar();
    bar->setValue(bar->value() + qRound(geometry.y((lowest + highest) / 2.0) - cells.center().y()));
    horizontalScrollBar()->setValue(0);
    scrollToCursor();
}

void NoteGrid::scrollContentsBy(int, int) {
    layOutCells();
    if (tool.isActive()) tool.relayOut(geometry);
    placePhrasingBar();
    viewport()->update();
}

void NoteGrid::resizeEvent(QResizeEvent* event) {
    QAbstractScrollArea::resizeEvent(event);
    const bool first = !event->oldSize().isValid();
    const bool wasCursorSeen = isCursorSeen();
    layOutCells();
    if (first)
        centreOnNotes();
    else if (wasCursorSeen)
        scrollToCursor(); // the page under the grid takes room from it
    placePhrasingBar();
}

// Painting
// ---------------------------------------------------------------------------------------------------

void NoteGrid::paintEvent(QPaintEvent* event) {
    QPainter painter(viewport());
    painter.fillRect(event->rect(), color(Role::Panel));
    if (!hasColumns()) {
        painter.setFont(ui::font(TextStyle::Body));
        painter.setPen(color(Role::Muted));
        painter.drawText(viewport()->rect().adjusted(spacing::wide, 0, -spacing::wide, 0),
                         Qt::AlignCenter | Qt::TextWordWrap, advice());
        return;
    }
    const QRectF exposed = event->rect();
    paintGround(painter, scene, geometry, exposed);
    paintEvidence(painter, scene, geometry);
    paintCursor(painter, scene, geometry);
    paintNotes(painter, scene, geometry, exposed);
    paintHints(painter, scene, geometry);
    paintPageMarks(painter, scene, geometry);
    paintPlayhead(painter, scene, geometry);
}

void NoteGrid::placePhrasingBar() {
    const bool isOffered = scene.selected && isPhrasingOffered && !tool.isActive();
    const Note* note = isOffered ? scene.study->note(*scene.selected) : nullptr;
    // What the record has at this note is asked for then, and would lie under the words.
    const bool isEvidenceHere = note && scene.evidence && scene.evidence->range.contains(note->onset);
    if (!note || isEvidenceHere || !geometry.cells().intersects(geometry.outline(*note))) {
        phrasingBar->hide();
        return;
    }
    phrasingBar->prepare(*note, markInHand(), static_cast<int>(geometry.cells().width()));
    auto place = freePlaceBeside(*note, phrasingBar->sizeHint(), *scene.study, geometry);
    if (!place) {
        // The notes around it are what it is compared with.
        phrasingBar->arrangeInOneRow(static_cast<int>(geometry.cells().right()));
        place = placeUnderCells(phrasingBar->sizeHint(), geometry);
    }
    phrasingBar->setGeometry(place->toRect());
    phrasingBar->show();
}

} // namespace earwright::ui
