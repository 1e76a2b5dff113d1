#include "core/engraving/MarkLayout.h"

#include "core/engraving/TabBend.h"
#include "core/engraving/TextWidth.h"

#include <algorithm>
#include <string>

namespace earwright {

namespace {

constexpr double staffBottom = 4;
constexpr double gap = 0.35;
/// How far one part of a wavy line reaches until the next one begins: the font's advance widths.
constexpr double trillAdvance = 0.948;
constexpr double vibratoAdvance = 0.608;
constexpr double trillAccidentalScale = 0.65;
constexpr double pickScale = 0.7;
/// So many parts of a wavy line are seen as one, even over the shortest note.
constexpr int leastWaves = 3;

/// Draws a glyph centred over (or under) a place, clear of what is there and of the staff.
void drawClear(Smufl glyph, double middle, bool above, NoteId note, Sketch& sketch, double scale = 1) {
    const PageBox own = sketch.metrics().box(glyph);
    const PageBox box{own.left * scale, own.top * scale, own.right * scale, own.bottom * scale};
    const double x = middle - (box.left + box.right) / 2;
    const double left = x + box.left - 0.1;
    const double right = x + box.right + 0.1;
    const double y = above ? sketch.topOver(left, right, -0.1) - gap - box.bottom
                           : sketch.bottomUnder(left, right, staffBottom + 0.1) + gap - box.top;
    sketch.add(PlacedGlyph{glyph, {x, y}, scale, note});
}

/// Where a wavy line over a note, tied parts of it included, ends: before the next note or its bar line.
double endOfNote(const LaidLine& line, std::size_t index, const std::vector<PlacedBar>& bars) {
    std::size_t last = index;
    while (last + 1 < line.size() && line[last].piece.page.tiedOn)
        ++last;
    const double barLine = bars[line[last].bar].right - 0.5;
    if (last + 1 == line.size()) return barLine;
    return std::min(barLine, line[last + 1].x - line[last + 1].shape.left - 0.6);
}

struct SignedTrill {
    PlacedShapes shapes;
    double width = 0;
};

/// The sign and, beside it, what the upper note needs.
SignedTrill signOf(const LaidPiece& laid, const FontMetrics& font) {
    const PageBox trill = font.box(Smufl::OrnamentTrill);
    SignedTrill sign;
    sign.shapes.glyphs.push_back({Smufl::OrnamentTrill, {0, 0}, 1, laid.note()});
    sign.width = trill.right;
    if (!laid.piece.trillAccidental) return sign;
    const Smufl accidental = accidentalGlyph(*laid.piece.trillAccidental);
    const PageBox box = font.box(accidental);
    const double x = sign.width + 0.2;
    const double y =
        std::min((trill.top + trill.bottom) / 2 - (box.top + box.bottom) / 2 * trillAccidentalScale,
                 -box.bottom * trillAccidentalScale);
    sign.shapes.glyphs.push_back({accidental, {x, y}, trillAccidentalScale, laid.note()});
    sign.width = x + box.right * trillAccidentalScale;
    return sign;
}

void drawTrill(const LaidLine& line, std::size_t index, const std::vector<PlacedBar>& bars, Sketch& sketch) {
    const LaidPiece& laid = line[index];
    const bool isFirst = !laid.piece.page.tiedFromBefore;
    const SignedTrill sign = isFirst ? signOf(laid, sketch.metrics()) : SignedTrill{};
    const double right = std::max(endOfNote(line, index, bars), laid.x + sign.width);
    const double y = sketch.topOver(laid.x, right, -0.4) - gap;
    sketch.add(sign.shapes, {laid.x, y});
    double x = laid.x + (isFirst ? sign.width + 0.2 : 0);
    for (; x + trillAdvance <= right; x += trillAdvance)
        sketch.add(PlacedGlyph{Smufl::WiggleTrill, {x, y}, 1, laid.note()});
}

void drawVibrato(const LaidLine& line, std::size_t index, const std::vector<PlacedBar>& bars,
                 Sketch& sketch) {
    const LaidPiece& laid = line[index];
    const double room = endOfNote(line, index, bars) - laid.x;
    const int waves = std::max(leastWaves, static_cast<int>(room / vibratoAdvance));
    const PageBox wave = sketch.metrics().box(Smufl::WiggleVibrato);
    const double right = laid.x + (waves - 1) * vibratoAdvance + wave.right;
    const double y = sketch.topOver(laid.x + wave.left, right, -0.4) - gap - wave.bottom;
    for (int i = 0; i < waves; ++i)
        sketch.add(PlacedGlyph{Smufl::WiggleVibrato, {laid.x + i * vibratoAdvance, y}, 1, laid.note()});
}

/// From the head outwards: staccato, tenuto, accent.
void drawArticulations(const LaidPiece& laid, bool above, Sketch& sketch) {
    const auto draw = [&](bool isSaid, Smufl over, Smufl under) {
        if (isSaid) drawClear(above ? over : under, laid.middle(), above, laid.note(), sketch);
    };
    const Phrasing& phrasing = laid.piece.phrasing;
    draw(phrasing.staccato, Smufl::ArticStaccatoAbove, Smufl::ArticStaccatoBelow);
    draw(phrasing.tenuto, Smufl::ArticTenutoAbove, Smufl::ArticTenutoBelow);
    draw(phrasing.accented, Smufl::ArticAccentAbove, Smufl::ArticAccentBelow);
}

/// A turn or mordent stands over the beginning of its note. Under a slur a note that is picked all the same
/// has the sign of a stroke, which says no more of it than that (SMuFL names it after the bow; common
/// practice for the pick as well).
void drawShortOrnaments(const LaidPiece& laid, Sketch& sketch) {
    const Phrasing& phrasing = laid.piece.phrasing;
    const auto draw = [&](Smufl sign) { drawClear(sign, laid.middle(), true, laid.note(), sketch); };
    if (phrasing.turn)
        draw(*phrasing.turn == Turn::FromAbove ? Smufl::OrnamentTurn : Smufl::OrnamentTurnInverted);
    if (phrasing.pickedInSlur)
        drawClear(Smufl::StringsDownBow, laid.middle(), true, laid.note(), sketch, pickScale);
    if (phrasing.mordent)
        draw(*phrasing.mordent == Mordent::Lower ? Smufl::OrnamentMordent : Smufl::OrnamentShortTrill);
}

void drawBendAmount(const Bend& bend, double atHead, double lineEnd, NoteId note, Sketch& sketch) {
    constexpr double size = 1.5;
    const std::string words = (isPrebent(bend) ? "prebend " : "") + bendAmount(bend);
    const double width = textWidth(words) * size;
    const double x = std::min(atHead, lineEnd - width);
    const double right = x + width;
    const double y = sketch.topOver(x - 0.2, right + 0.8, -0.4) - gap - 0.22 * size;
    sketch.add(PlacedText{words, {x, y}, size, TextRole::Words, TextAnchor::Left, note});
}

} // namespace

void layOutArticulations(const LaidLine& line, MarkSide side, Sketch& sketch) {
    for (const LaidPiece& laid : line)
        if (!laid.isRest() && !laid.piece.page.tiedFromBefore)
            drawArticulations(laid, side == MarkSide::Above || !laid.piece.stemUp, sketch);
}

void layOutOrnaments(const LaidLine& line, const std::vector<PlacedBar>& bars, Sketch& sketch) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const LaidPiece& laid = line[i];
        if (laid.isRest()) continue;
        if (!laid.piece.page.tiedFromBefore) drawShortOrnaments(laid, sketch);
        const bool isFirstHere = !laid.piece.page.tiedFromBefore || i == 0;
        if (laid.piece.phrasing.trill && isFirstHere) drawTrill(line, i, bars, sketch);
        if (laid.piece.phrasing.vibrato && isFirstHere) drawVibrato(line, i, bars, sketch);
    }
}

void layOutBendAmounts(const LaidLine& line, double right, Sketch& sketch) {
    for (const LaidPiece& laid : line) {
        if (laid.isRest() || laid.piece.page.tiedFromBefore) continue;
        for (const StaffHead& head : laid.piece.heads)
            if (head.phrasing.bend) drawBendAmount(*head.phrasing.bend, laid.x, right, head.note, sketch);
    }
}

} // namespace earwright
