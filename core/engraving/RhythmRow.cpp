#include "core/engraving/RhythmRow.h"

namespace earwright {

namespace {

constexpr int rowPosition = -3;
/// How far the line of a rest reaches beyond it.
constexpr double besideRest = 0.35;

} // namespace

StaffPiece rhythmOf(const StaffPiece& piece) {
    StaffPiece row = piece;
    row.graces.clear();
    row.trillHead.reset();
    row.stemUp = true;
    if (piece.heads.empty()) return row;
    StaffHead head = piece.heads.front();
    head.position = rowPosition;
    head.accidental.reset();
    head.phrasing = {};
    row.heads = {head};
    return row;
}

void drawRestLine(double left, double right, int denominator, Sketch& sketch) {
    if (denominator > 2) return;
    const double y = denominator == 2 ? 2 : 1;
    sketch.addLight(PlacedLine{
        {left - besideRest, y}, {right + besideRest, y}, sketch.metrics().usual("legerLineThickness"), {}});
}

} // namespace earwright
