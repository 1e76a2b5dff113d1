#include "core/engraving/Sketch.h"

#include "core/engraving/Extent.h"

#include <algorithm>

namespace earwright {

void Sketch::add(const PlacedGlyph& glyph) {
    taken.push_back(boxOf(glyph, font));
    shapes.glyphs.push_back(glyph);
}

void Sketch::add(const PlacedLine& line) {
    taken.push_back(boxOf(line));
    shapes.lines.push_back(line);
}

void Sketch::add(const PlacedBeam& beam) {
    taken.push_back(boxOf(beam));
    shapes.beams.push_back(beam);
}

void Sketch::add(const PlacedCurve& curve) {
    for (const PageBox& box : boxesAlong(curve))
        taken.push_back(box);
    shapes.curves.push_back(curve);
}

void Sketch::add(const PlacedText& text) {
    taken.push_back(boxOf(text));
    shapes.texts.push_back(text);
}

void Sketch::add(const PlacedShapes& others, const PagePoint& by) {
    PlacedShapes moved;
    moved.append(others, by);
    for (const PlacedGlyph& glyph : moved.glyphs)
        add(glyph);
    for (const PlacedLine& line : moved.lines)
        add(line);
    for (const PlacedBeam& beam : moved.beams)
        add(beam);
    for (const PlacedCurve& curve : moved.curves)
        add(curve);
    for (const PlacedText& text : moved.texts)
        add(text);
}

double Sketch::topOver(double left, double right, double rest) const {
    for (const PageBox& box : taken)
        if (box.left < right && left < box.right) rest = std::min(rest, box.top);
    return rest;
}

double Sketch::bottomUnder(double left, double right, double rest) const {
    for (const PageBox& box : taken)
        if (box.left < right && left < box.right) rest = std::max(rest, box.bottom);
    return rest;
}

} // namespace earwright
