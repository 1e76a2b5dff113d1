// Turns a press, a drag and a release in the note grid into one edit.
#pragma once

#include "core/study/NoteEdits.h"
#include "core/study/Study.h"
#include "ui/grid/GridColumns.h"
#include "ui/grid/GridEdits.h"
#include "ui/grid/GridGeometry.h"

#include <QPointF>

#include <memory>
#include <optional>

namespace earwright::ui {

/// What a press at a point would take hold of.
enum class Grip { Nothing, EmptyCell, Note, TailEnd };

/// A gesture with the left button: on an empty cell it writes a note, as long as it is dragged; on a note it
/// moves it in time and pitch; on the end of a tail it changes its length.
///
/// The study is not touched before release(); draft() is what it would be, for the painter.
/// Threads: interface only.
class NoteTool {
public:
    /// The study and columns stay the same from press to release.
    void press(std::shared_ptr<const Study> study, const GridColumns& columns, const GridGeometry& geometry,
               QPointF at);
    void drag(QPointF at);
    /// The view was scrolled under the pointer, or resized.
    void relayOut(const GridGeometry& layout) { geometry = layout; }
    /// The study was changed meanwhile: goes on over the new one and returns true where its notes and columns
    /// are the same. Requires: isActive().
    bool goOn(std::shared_ptr<const Study> now);
    /// The edit of the whole gesture; nothing where nothing changed. Ends the gesture.
    std::optional<GridEdit> release();
    void cancel();

    bool isActive() const { return grip != Grip::Nothing; }
    /// The study as it would be on release. Requires: isActive().
    std::shared_ptr<const Study> draft() const { return drafted; }
    /// The note in hand. Requires: isActive().
    NoteId note() const { return held; }

    /// The note that a press at a point takes; null for none. Points into study.
    static const Note* noteAt(const Study& study, const GridGeometry& geometry, QPointF at);
    static Grip gripAt(const Study& study, const GridColumns& columns, const GridGeometry& geometry,
                       QPointF at);

private:
    void writeHeld(const NewNote& note);
    void dragLength(double x);
    void dragNote(QPointF at);
    void show(Study study);

    Grip grip = Grip::Nothing;
    std::shared_ptr<const Study> before;
    /// What a drag starts from: the study before it, with the new note where one is written.
    std::shared_ptr<const Study> base;
    std::shared_ptr<const Study> drafted;
    GridColumns columns;
    GridGeometry geometry;
    /// Where the pointer was dragged to last; nothing before the first drag.
    std::optional<QPointF> draggedTo;
    NoteId held;
    /// From the pointer to the head, so that the note does not jump when it is taken.
    QPointF toHead;
};

} // namespace earwright::ui
