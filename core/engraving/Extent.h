// What of the paper shapes take.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"

#include <vector>

namespace earwright {

/// Boxes of single shapes; those of texts by an estimate of their width. Threads: any.
PageBox boxOf(const PlacedGlyph& glyph, const FontMetrics& font);
PageBox boxOf(const PlacedLine& line);
PageBox boxOf(const PlacedBeam& beam);
/// Of the curve itself, not of its control points.
PageBox boxOf(const PlacedCurve& curve);
/// The curve in short pieces, from end to end: what it takes of the paper, without the room inside its bow.
std::vector<PageBox> boxesAlong(const PlacedCurve& curve);
/// The same of a line: slanted ones leave two corners of their box free.
std::vector<PageBox> boxesAlong(const PlacedLine& line);
PageBox boxOf(const PlacedText& text);

/// The smallest box around both; an empty one counts for nothing.
PageBox around(const PageBox& one, const PageBox& other);
/// Around everything; an empty box for nothing.
PageBox extentOf(const PlacedShapes& shapes, const FontMetrics& font);

} // namespace earwright
