#include "core/engraving/BarLines.h"

#include <cmath>

namespace earwright {

namespace {

bool endsRepeat(BarLineSign sign) {
    return sign == BarLineSign::RepeatEnd || sign == BarLineSign::RepeatBoth;
}

bool startsRepeat(BarLineSign sign) {
    return sign == BarLineSign::RepeatStart || sign == BarLineSign::RepeatBoth;
}

bool hasThickLine(BarLineSign sign) {
    return sign == BarLineSign::Final || endsRepeat(sign) || startsRepeat(sign);
}

/// The widths a sign is put together from.
struct Widths {
    explicit Widths(const FontMetrics& font)
        : thin(font.usual("thinBarlineThickness")),
          thick(font.usual("thickBarlineThickness")),
          gap(font.usual("barlineSeparation")),
          dots(font.usual("repeatBarlineDotSeparation") + font.width(Smufl::RepeatDot)) {}
    double thin;
    double thick;
    double gap;
    double dots;
};

class BarLineDrawing {
public:
    BarLineDrawing(double upper, double lower, double space, Sketch& onto)
        : top(upper), bottom(lower), lineGap(space), sketch(onto) {}

    void line(double right, double thickness) {
        const double half = sketch.metrics().usual("staffLineThickness") / 2;
        const double x = right - thickness / 2;
        sketch.addLight(PlacedLine{{x, top - half}, {x, bottom + half}, thickness, {}});
    }

    /// In the spaces beside the middle; of an even number of spaces on either side of the middle line.
    void dots(double left) {
        const double middle = (top + bottom) / 2;
        const auto spaces = std::lround((bottom - top) / lineGap);
        const double apart = spaces % 2 == 0 ? lineGap / 2 : lineGap;
        for (const double y : {middle - apart, middle + apart})
            sketch.shapes.glyphs.push_back({Smufl::RepeatDot, {left, y}, 1, {}});
    }

private:
    double top;
    double bottom;
    double lineGap;
    Sketch& sketch;
};

} // namespace

BarLineSign barLineBehind(const SystemPlan& plan, std::size_t bar) {
    const bool isLineEnd = bar + 1 == plan.bars.size();
    const bool opens = !isLineEnd && plan.bars[bar + 1].repeat.opens;
    if (plan.bars[bar].repeat.closes) return opens ? BarLineSign::RepeatBoth : BarLineSign::RepeatEnd;
    if (opens) return BarLineSign::RepeatStart;
    if (isLineEnd && plan.end == LineEnd::Final) return BarLineSign::Final;
    const std::optional<KeySignature> next = isLineEnd ? plan.keyAfter : plan.bars[bar + 1].key;
    const bool changesKey = next && next->fifths != plan.bars[bar].key.fifths;
    return changesKey ? BarLineSign::Double : BarLineSign::Plain;
}

BarLineReach reachOf(BarLineSign sign, const FontMetrics& font) {
    const Widths widths(font);
    BarLineReach reach{hasThickLine(sign) ? widths.thick : widths.thin, 0};
    if (sign == BarLineSign::Double || sign == BarLineSign::Final || endsRepeat(sign))
        reach.left += widths.gap + widths.thin;
    if (endsRepeat(sign)) reach.left += widths.dots;
    if (startsRepeat(sign)) reach.right = widths.gap + widths.thin + widths.dots;
    return reach;
}

void drawBarLine(BarLineSign sign, double place, double top, double bottom, double lineGap, Sketch& sketch) {
    const Widths widths(sketch.metrics());
    const BarLineReach reach = reachOf(sign, sketch.metrics());
    BarLineDrawing draw(top, bottom, lineGap, sketch);
    const double main = hasThickLine(sign) ? widths.thick : widths.thin;
    draw.line(place, main);
    if (sign == BarLineSign::Double || sign == BarLineSign::Final || endsRepeat(sign))
        draw.line(place - main - widths.gap, widths.thin);
    if (endsRepeat(sign)) draw.dots(place - reach.left);
    if (!startsRepeat(sign)) return;
    draw.line(place + widths.gap + widths.thin, widths.thin);
    draw.dots(place + reach.right - sketch.metrics().width(Smufl::RepeatDot));
}

} // namespace earwright
