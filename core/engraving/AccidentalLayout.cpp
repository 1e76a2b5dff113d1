#include "core/engraving/AccidentalLayout.h"

#include "core/engraving/Extent.h"
#include "core/engraving/PieceShape.h"

#include <algorithm>

namespace earwright {

namespace {

/// Between an accidental and what is right of it.
constexpr double gap = 0.2;
/// Between an accidental and its parentheses.
constexpr double parenthesisGap = 0.1;

} // namespace

PlacedShapes accidentalShapes(const StaffHead& head, const FontMetrics& font) {
    PlacedShapes sign;
    if (!head.accidental) return sign;
    double x = 0;
    const auto add = [&](Smufl glyph) {
        const PageBox box = font.box(glyph);
        sign.glyphs.push_back({glyph, {x - box.left, 0}, 1, head.note});
        x += box.width() + parenthesisGap;
    };
    const bool hasParentheses = head.isCautionary && !head.phrasing.ghosted;
    if (hasParentheses) add(Smufl::AccidentalParensLeft);
    add(accidentalGlyph(*head.accidental));
    if (hasParentheses) add(Smufl::AccidentalParensRight);
    return sign;
}

std::vector<double> accidentalEdges(const std::vector<StaffHead>& heads, double from, double scale,
                                    const FontMetrics& font) {
    std::vector<double> edges(heads.size(), 0);
    std::vector<PageBox> placed;
    for (std::size_t i = heads.size(); i-- > 0;) {
        if (!heads[i].accidental) continue;
        const PageBox box = extentOf(accidentalShapes(heads[i], font), font);
        const double y = yOfPosition(heads[i].position);
        double right = from - gap * scale;
        for (const PageBox& other : placed)
            if (other.bottom > y + box.top * scale && other.top < y + box.bottom * scale)
                right = std::min(right, other.left - gap * scale);
        edges[i] = right - box.right * scale;
        placed.push_back(
            {edges[i], y + box.top * scale, edges[i] + box.right * scale, y + box.bottom * scale});
    }
    return edges;
}

} // namespace earwright
