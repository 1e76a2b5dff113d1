#include "core/engraving/MarkLayout.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double staffBottom = 4;
constexpr double gap = 0.35;
/// Of the wavy line, over and under it.
constexpr double wiggleAdvance = 0.948;

/// Draws a glyph centred over (or under) a place, clear of what is there and of the staff.
void drawClear(Smufl glyph, double middle, bool above, NoteId note, Sketch& sketch) {
    const PageBox box = sketch.metrics().box(glyph);
    const double x = middle - (box.left + box.right) / 2;
    const double left = x + box.left - 0.1;
    const double right = x + box.right + 0.1;
    const double y = above ? sketch.topOver(left, right, -0.1) - gap - box.bottom
                           : sketch.bottomUnder(left, right, staffBottom + 0.1) + gap - box.top;
    sketch.add(PlacedGlyph{glyph, {x, y}, 1, note});
}

void drawTrill(const LaidLine& line, std::size_t index, double lineEnd, Sketch& sketch) {
    const LaidPiece& laid = line[index];
    std::size_t last = index;
    while (last + 1 < line.size() && line[last].piece.page.tiedOn)
        ++last;
    const FontMetrics& font = sketch.metrics();
    const PageBox sign = font.box(Smufl::OrnamentTrill);
    const double end = last + 1 < line.size() ? line[last + 1].x - line[last + 1].shape.left - 0.6 : lineEnd;
    const double right = std::max(end, laid.x + sign.right);
    const double y = sketch.topOver(laid.x, right, -0.4) - gap;
    const bool isFirst = !laid.piece.page.tiedFromBefore;
    if (isFirst) sketch.add(PlacedGlyph{Smufl::OrnamentTrill, {laid.x, y}, 1, laid.note()});
    double x = laid.x + (isFirst ? sign.right + 0.2 : 0);
    for (; x + wiggleAdvance <= right; x += wiggleAdvance)
        sketch.add(PlacedGlyph{Smufl::WiggleTrill, {x, y}, 1, laid.note()});
}

} // namespace

void layOutArticulations(const LaidLine& line, Sketch& sketch) {
    for (const LaidPiece& laid : line) {
        if (laid.isRest() || laid.piece.page.tiedFromBefore || !laid.piece.phrasing.accented) continue;
        const bool above = !laid.piece.stemUp;
        drawClear(above ? Smufl::ArticAccentAbove : Smufl::ArticAccentBelow, laid.middle(), above,
                  laid.note(), sketch);
    }
}

void layOutOrnaments(const LaidLine& line, double right, Sketch& sketch) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const LaidPiece& laid = line[i];
        const bool isFirstHere = !laid.piece.page.tiedFromBefore || i == 0;
        if (!laid.isRest() && laid.piece.phrasing.trill && isFirstHere) drawTrill(line, i, right, sketch);
    }
}

} // namespace earwright
