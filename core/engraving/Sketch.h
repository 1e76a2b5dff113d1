// A line of music while it is laid out: its shapes, and the paper they have taken so far.
#pragma once

#include "core/engraving/EngravedPage.h"
#include "core/engraving/FontMetrics.h"

#include <optional>
#include <vector>

namespace earwright {

/// Collects shapes and answers where there is still room. Coordinates of the system: the staff's top line is
/// y = 0. Staff lines and bar lines take no room here; what stands clear of the staff asks for that itself.
class Sketch {
public:
    /// Requires: the font outlives this.
    explicit Sketch(const FontMetrics& metrics) : font(metrics) {}

    void add(const PlacedGlyph& glyph);
    void add(const PlacedLine& line);
    void add(const PlacedBeam& beam);
    void add(const PlacedCurve& curve);
    void add(const PlacedText& text);
    void add(const PlacedShapes& shapes, const PagePoint& by);
    /// Takes no room: staff lines, bar lines, and what may be crossed.
    void addLight(const PlacedLine& line) { shapes.lines.push_back(line); }

    /// The highest ink over [left, right], `rest` where there is none higher.
    double topOver(double left, double right, double rest) const;
    /// The lowest ink there, `rest` where there is none lower.
    double bottomUnder(double left, double right, double rest) const;

    const FontMetrics& metrics() const { return font; }
    const std::vector<PageBox>& ink() const { return taken; }
    PlacedShapes shapes;

private:
    const FontMetrics& font;
    std::vector<PageBox> taken;
};

} // namespace earwright
