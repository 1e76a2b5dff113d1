#include "core/engraving/EngravedPage.h"

#include <cmath>

namespace earwright {

PagePoint PlacedCurve::across() const {
    const double width = points.back().x - points.front().x;
    const double rise = points.back().y - points.front().y;
    const double length = std::hypot(width, rise);
    if (length == 0) return {0, 1};
    return {-rise / length, width / length};
}

void PlacedShapes::append(const PlacedShapes& others, const PagePoint& by) {
    for (PlacedGlyph glyph : others.glyphs) {
        glyph.at = glyph.at + by;
        glyphs.push_back(glyph);
    }
    for (PlacedLine line : others.lines) {
        line.from = line.from + by;
        line.to = line.to + by;
        lines.push_back(line);
    }
    for (PlacedBeam beam : others.beams) {
        for (PagePoint& corner : beam.corners)
            corner = corner + by;
        beams.push_back(beam);
    }
    for (PlacedCurve curve : others.curves) {
        for (PagePoint& point : curve.points)
            point = point + by;
        curves.push_back(curve);
    }
    for (PlacedText text : others.texts) {
        text.at = text.at + by;
        texts.push_back(std::move(text));
    }
}

} // namespace earwright
