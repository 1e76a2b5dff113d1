#include "core/engraving/EngravedPage.h"

namespace earwright {

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
