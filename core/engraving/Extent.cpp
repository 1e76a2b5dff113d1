#include "core/engraving/Extent.h"

#include "core/engraving/TextWidth.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Of a usual face, in ems: how far it reaches over and under its base line.
constexpr double ascent = 0.75;
constexpr double descent = 0.22;
/// A curve or line is looked at in so many pieces.
constexpr int partsOfShape = 16;

PageBox ofPoints(const PagePoint& a, const PagePoint& b) {
    return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
}

PagePoint onCurve(const PlacedCurve& curve, double share) {
    const double rest = 1 - share;
    const std::array weights{rest * rest * rest, 3 * rest * rest * share, 3 * rest * share * share,
                             share * share * share};
    PagePoint at;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        at.x += weights[i] * curve.points[i].x;
        at.y += weights[i] * curve.points[i].y;
    }
    return at;
}

} // namespace

PageBox boxOf(const PlacedGlyph& glyph, const FontMetrics& font) {
    const PageBox box = font.box(glyph.glyph);
    return PageBox{box.left * glyph.scale, box.top * glyph.scale, box.right * glyph.scale,
                   box.bottom * glyph.scale}
        .moved(glyph.at);
}

PageBox boxOf(const PlacedLine& line) {
    PageBox box = ofPoints(line.from, line.to);
    const double half = line.thickness / 2;
    return {box.left - half, box.top - half, box.right + half, box.bottom + half};
}

PageBox boxOf(const PlacedBeam& beam) {
    return around(ofPoints(beam.corners[0], beam.corners[2]), ofPoints(beam.corners[1], beam.corners[3]));
}

std::vector<PageBox> boxesAlong(const PlacedLine& line) {
    const auto at = [&](int part) {
        const double share = static_cast<double>(part) / partsOfShape;
        return PagePoint{line.from.x + share * (line.to.x - line.from.x),
                         line.from.y + share * (line.to.y - line.from.y)};
    };
    std::vector<PageBox> boxes;
    for (int part = 0; part < partsOfShape; ++part)
        boxes.push_back(boxOf(PlacedLine{at(part), at(part + 1), line.thickness, line.note}));
    return boxes;
}

std::vector<PageBox> boxesAlong(const PlacedCurve& curve) {
    std::vector<PageBox> boxes;
    const double beside = std::abs(curve.across().x) * curve.midThickness / 2;
    const double over = std::abs(curve.across().y) * curve.midThickness / 2;
    PagePoint from = curve.points.front();
    for (int part = 1; part <= partsOfShape; ++part) {
        const PagePoint to = onCurve(curve, static_cast<double>(part) / partsOfShape);
        const PageBox box = ofPoints(from, to);
        boxes.push_back({box.left - beside, box.top - over, box.right + beside, box.bottom + over});
        from = to;
    }
    return boxes;
}

PageBox boxOf(const PlacedCurve& curve) {
    PageBox whole;
    for (const PageBox& box : boxesAlong(curve))
        whole = around(whole, box);
    return whole;
}

PageBox boxOf(const PlacedText& text) {
    const double width = textWidth(text.text) * text.size;
    const double left = text.anchor == TextAnchor::Left     ? text.at.x
                        : text.anchor == TextAnchor::Centre ? text.at.x - width / 2
                                                            : text.at.x - width;
    // Figures have nothing under their base line.
    const double under = text.role == TextRole::FretNumber ? 0 : descent * text.size;
    return {left, text.at.y - ascent * text.size, left + width, text.at.y + under};
}

PageBox around(const PageBox& one, const PageBox& other) {
    if (one == PageBox{}) return other;
    if (other == PageBox{}) return one;
    return {std::min(one.left, other.left), std::min(one.top, other.top), std::max(one.right, other.right),
            std::max(one.bottom, other.bottom)};
}

PageBox extentOf(const PlacedShapes& shapes, const FontMetrics& font) {
    PageBox box;
    for (const PlacedGlyph& glyph : shapes.glyphs)
        box = around(box, boxOf(glyph, font));
    for (const PlacedLine& line : shapes.lines)
        box = around(box, boxOf(line));
    for (const PlacedBeam& beam : shapes.beams)
        box = around(box, boxOf(beam));
    for (const PlacedCurve& curve : shapes.curves)
        box = around(box, boxOf(curve));
    for (const PlacedText& text : shapes.texts)
        box = around(box, boxOf(text));
    return box;
}

} // namespace earwright
