// Where beats and pitches lie in the note grid, and what lies at a point of it.
#pragma once

#include "core/music/Note.h"
#include "core/time/Beats.h"
#include "core/time/Range.h"
#include "ui/grid/GridColumns.h"

#include <QPointF>
#include <QRectF>
#include <QSizeF>

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright::ui {

/// Lines above and beside the cells, in pixels.
namespace gridmargins {
inline constexpr double labels = 74;      ///< row names, on the left
inline constexpr double beforeFirst = 14; ///< between row names and cells, for what leads into a note
inline constexpr double chords = 24;      ///< chord symbols and bar numbers
inline constexpr double ruler = 20;       ///< how each beat is divided
inline constexpr double help = 16;        ///< marks of the hint ladder
inline constexpr double top = chords + ruler + help;
inline constexpr double marks = 34; ///< dynamics, hairpins and words, under the cells
inline constexpr double right = 6;
} // namespace gridmargins

/// Beats ↔ x and pitch ↔ y for one size of the view and one place scrolled to.
///
/// Beats are equally wide while that leaves room for the columns of all of them, so that bars stand as they
/// do on the chorus sheet; where it does not, finely divided beats are wider than the rest. Rows are equally
/// high, one a semitone, the highest on top.
/// Units: device-independent pixels of the view. Threads: a value.
class GridGeometry {
public:
    /// Scroll: pixels of the whole grid to the left of and above what is seen.
    GridGeometry() = default;
    GridGeometry(const GridColumns& columns, QSizeF view, QPointF scroll = {});

    static constexpr double rowHeight = 16;
    /// A column is never narrower than this, so that neighbouring heads don't touch.
    static constexpr double narrowestColumn = 12;
    static constexpr double narrowestBeat = 40;
    /// From the edge of the cells to the foot of an arrow that tells of a note beyond it.
    static constexpr double arrowReach = 6;

    /// Of a beat that is not finely divided.
    double beatWidth() const { return oneBeat; }
    double widestBeat() const;
    /// The cells seen, without margins.
    QRectF cells() const { return cellArea; }
    QRectF chordLane() const;
    QRectF rulerLane() const;
    QRectF helpLane() const;
    QRectF markLane() const;
    /// How far it can be scrolled.
    QSizeF scrollRange() const;

    double x(double beats) const;
    double x(const Beats& place) const { return x(place.toDouble()); }
    double beatsAt(double x) const;
    /// Centre of a pitch's row.
    double y(double midi) const;
    /// Nothing above the highest and below the lowest pitch a line can have.
    std::optional<int> midiAt(double y) const;
    QRectF row(int midi) const;
    QRectF cell(const GridColumn& column, int midi) const;
    /// Of the counted beat that begins at a place.
    QRectF beatOnRuler(const Beats& beat) const;

    /// Centre of a note's head: just inside its column.
    QPointF head(const Note& note) const;
    /// Its head lies above, below the rows that are seen; an arrow tells of it at their edge.
    bool isAbove(const Note& note) const { return head(note).y() < cellArea.top(); }
    bool isBelow(const Note& note) const { return head(note).y() >= cellArea.bottom(); }
    /// The place by which the whole note is taken, before any other.
    QRectF headArea(const Note& note) const;
    /// Where its tail ends.
    QPointF tailEnd(const Note& note) const;
    /// The place by which a tail is dragged: around its end.
    QRectF tailHandle(const Note& note) const;
    /// Head and tail with a little room, and with the tail's handle.
    QRectF outline(const Note& note) const;

private:
    void layOutBeats(const GridColumns& columns);
    /// The counted beat, from the first shown, that a place lies in; the nearest one for places outside.
    std::size_t beatUnder(double place) const;

    Range<Beats> bars;
    QRectF cellArea;
    QPointF scrolled;
    QSizeF whole;
    double oneBeat = narrowestBeat;
    /// Where counted beats begin, and where the last one ends: places in beats, and pixels from the first.
    std::vector<double> places{0.0, 1.0};
    std::vector<double> lines{0.0, narrowestBeat};
};

} // namespace earwright::ui
