// A page of music as shapes with positions: what a painter draws, without knowing music.
#pragma once

#include "core/engraving/Smufl.h"
#include "core/music/Note.h"
#include "core/time/Beats.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace earwright {

/// In staff spaces (the distance of two staff lines, a quarter of the music font's em); y grows downward.
struct PagePoint {
    double x = 0;
    double y = 0;
    friend bool operator==(const PagePoint&, const PagePoint&) = default;
    friend PagePoint operator+(const PagePoint& a, const PagePoint& b) { return {a.x + b.x, a.y + b.y}; }
};

struct PageBox {
    double left = 0;
    double top = 0;
    double right = 0;
    double bottom = 0;
    friend bool operator==(const PageBox&, const PageBox&) = default;
    double width() const { return right - left; }
    double height() const { return bottom - top; }
    bool overlaps(const PageBox& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
    PageBox moved(const PagePoint& by) const {
        return {left + by.x, top + by.y, right + by.x, bottom + by.y};
    }
};

/// A glyph of the music font, its origin at `at`.
struct PlacedGlyph {
    Smufl glyph = Smufl::NoteheadBlack;
    PagePoint at;
    double scale = 1;
    /// The written note it belongs to.
    std::optional<NoteId> note;
};

struct PlacedLine {
    PagePoint from;
    PagePoint to;
    double thickness = 0.13;
    std::optional<NoteId> note;
};

/// A beam: four corners in order.
struct PlacedBeam {
    std::array<PagePoint, 4> corners;
};

/// A slur, tie, bend or tall parenthesis: from end to end over two control points, thicker in the middle.
struct PlacedCurve {
    std::array<PagePoint, 4> points;
    double endThickness = 0.1;
    double midThickness = 0.22;
    std::optional<NoteId> note = {};

    /// Of length 1, across the line from end to end: the way it is thicker in. Downwards where that is level.
    PagePoint across() const;
};

enum class TextRole { ChordSymbol, Degree, BarNumber, FretNumber, Title, PhraseName, Words, Tempo, PageFoot };
enum class TextAnchor { Left, Centre, Right };

/// UTF-8 on a base line at `at`.
struct PlacedText {
    std::string text;
    PagePoint at;
    /// Height of its em.
    double size = 2;
    TextRole role = TextRole::Words;
    TextAnchor anchor = TextAnchor::Left;
    std::optional<NoteId> note;
};

/// Everything of one line of music, or of one page.
struct PlacedShapes {
    std::vector<PlacedGlyph> glyphs;
    std::vector<PlacedLine> lines;
    std::vector<PlacedBeam> beams;
    std::vector<PlacedCurve> curves;
    std::vector<PlacedText> texts;

    void append(const PlacedShapes& others, const PagePoint& by);
};

/// Where a note can be pointed at.
struct NoteBox {
    NoteId note;
    PageBox box;
};

/// Where a bar stands on its line.
struct PlacedBar {
    std::int64_t number = 1;
    double left = 0;
    double right = 0;
};

/// Where a moment of the music stands on its line; between two of them a cursor goes evenly.
struct PlacedMoment {
    Beats at;
    double x = 0;
};

/// One line of music; the staff's top line is y = 0, its left end x = 0.
struct EngravedSystem {
    PlacedShapes shapes;
    std::vector<NoteBox> notes;
    std::vector<PlacedBar> bars;
    /// Rising in both.
    std::vector<PlacedMoment> moments;
    /// What of the paper it takes.
    PageBox extent;
};

/// One page, or one endless one: everything in the page's own place.
struct EngravedPage {
    double width = 0;
    double height = 0;
    PlacedShapes shapes;
    std::vector<NoteBox> notes;
};

} // namespace earwright
