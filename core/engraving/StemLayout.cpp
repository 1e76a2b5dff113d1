#include "core/engraving/StemLayout.h"

#include "core/engraving/Extent.h"

#include <algorithm>
#include <bit>
#include <optional>
#include <vector>

namespace earwright {

namespace {

constexpr double octave = 3.5;
constexpr double middleLine = 2;
/// What each flag beyond the second adds.
constexpr double perFlag = 0.75;
constexpr double graceScale = 0.6;
constexpr double graceStem = 2.5;
/// How much of an interval between grace notes their beam follows, and at most.
constexpr double graceSlant = 0.4;
constexpr double slurClearance = 0.1;
constexpr double graceSlurSag = 1.6;
constexpr double besideStem = 0.15;
/// By how much a slur's end is tried further down a stem.
constexpr double slurDrop = 0.25;
/// It stays so far above the end of the stem.
constexpr double aboveStemEnd = 0.5;
/// And reaches no further under its beginning.
constexpr double belowGraces = 0.5;
constexpr double leastSlur = 0.8;
/// What a beam takes of it, which a slur stays above.
constexpr double perBeam = 0.9;
/// A slur is lowered in so many steps at most.
constexpr int lowestSlur = 12;
/// In so many it is no loop yet.
constexpr int flatSlur = 2;

int flagCount(int denominator) {
    return std::max(0, static_cast<int>(std::bit_width(static_cast<unsigned>(denominator))) - 3);
}

double singleStemEnd(const LaidPiece& laid) {
    const int flags = flagCount(laid.piece.page.value.denominator);
    double length = octave + perFlag * std::max(0, flags - 2);
    // The flag's end would lie on the dot.
    if (flags > 0 && laid.piece.page.value.dotted && laid.piece.stemUp) length += 1;
    return laid.piece.stemUp ? std::min(laid.highestY() - length, middleLine)
                             : std::max(laid.lowestY() + length, middleLine);
}

void drawFlag(LaidPiece& laid, Sketch& sketch) {
    const FontMetrics& font = sketch.metrics();
    const Smufl flag = flagGlyph(laid.piece.page.value.denominator, laid.piece.stemUp);
    const double left = laid.stem->x - font.usual("stemThickness") / 2;
    sketch.add(PlacedGlyph{flag, {left, laid.stem->endY}, 1, laid.note()});
    // The font says how far the stem goes on into the flag.
    laid.stem->endY += font.stemOfFlag(flag).y;
}

class GraceGroup {
public:
    GraceGroup(const LaidPiece& piece, Sketch& onto)
        : laid(piece), sketch(onto), font(onto.metrics()), thickness(font.usual("stemThickness") * 0.8) {}

    void draw() {
        const std::size_t count = laid.shape.graceHeads.size();
        const double firstEnd = endOver(0);
        const double lastEnd = count > 1 ? beamedEnd(firstEnd) : firstEnd;
        const double shift = count > 1 ? roomForInner(firstEnd, lastEnd) : 0;
        for (std::size_t i = 0; i < count; ++i)
            drawStem(i, onBeam(i, firstEnd - shift, lastEnd - shift));
        if (count > 1)
            drawBeams(firstEnd - shift, lastEnd - shift);
        else
            drawFlag(firstEnd);
        drawSlur();
    }

private:
    PagePoint head(std::size_t i) const {
        const PagePoint at = laid.shape.graceHeads[i];
        return {at.x + laid.x, at.y};
    }
    double stemX(std::size_t i) const {
        return head(i).x + font.stemUp(Smufl::NoteheadBlack).x * graceScale - thickness / 2;
    }
    double endOver(std::size_t i) const { return head(i).y - graceStem; }
    double beamedEnd(double firstEnd) const {
        const std::size_t last = laid.shape.graceHeads.size() - 1;
        return firstEnd + std::clamp((head(last).y - head(0).y) * graceSlant, -0.6, 0.6);
    }
    double onBeam(std::size_t i, double firstEnd, double lastEnd) const {
        const std::size_t last = laid.shape.graceHeads.size() - 1;
        if (last == 0) return firstEnd;
        return firstEnd + (lastEnd - firstEnd) * (stemX(i) - stemX(0)) / (stemX(last) - stemX(0));
    }
    /// How far the beam has to rise so that every stem is long enough.
    double roomForInner(double firstEnd, double lastEnd) const {
        double shift = 0;
        for (std::size_t i = 0; i < laid.shape.graceHeads.size(); ++i)
            shift = std::max(shift, onBeam(i, firstEnd, lastEnd) - endOver(i));
        return shift;
    }
    void drawStem(std::size_t i, double endY) {
        const double y = head(i).y + font.stemUp(Smufl::NoteheadBlack).y * graceScale;
        sketch.add(PlacedLine{{stemX(i), y}, {stemX(i), endY}, thickness, laid.note()});
    }
    void drawFlag(double endY) {
        const PagePoint at{stemX(0) - thickness / 2, endY};
        const PlacedGlyph drawn{Smufl::Flag8thUp, at, graceScale, laid.note()};
        sketch.add(drawn);
        flag = boxOf(drawn, font);
        const PagePoint from = font.graceSlashFrom(Smufl::Flag8thUp);
        const PagePoint to = font.graceSlashTo(Smufl::Flag8thUp);
        sketch.addLight(PlacedLine{{at.x + from.x * graceScale, at.y + from.y * graceScale},
                                   {at.x + to.x * graceScale, at.y + to.y * graceScale},
                                   thickness,
                                   laid.note()});
    }
    void drawBeams(double firstEnd, double lastEnd) {
        const double high = font.usual("beamThickness") * graceScale;
        const double step = high + font.usual("beamSpacing") * graceScale;
        const double left = stemX(0) - thickness / 2;
        const double right = stemX(laid.shape.graceHeads.size() - 1) + thickness / 2;
        for (const double y : {0.0, step})
            sketch.add(PlacedBeam{{{{left, firstEnd + y},
                                    {right, lastEnd + y},
                                    {right, lastEnd + y + high},
                                    {left, firstEnd + y + high}}}});
    }
    void drawSlur() {
        const PagePoint from{head(0).x + 0.35, head(0).y + 0.5};
        const PlacedCurve slur = slurFrom(from);
        if (slur.points.back().x - from.x >= leastSlur) sketch.add(slur);
    }
    /// As flat as it can be. After a leap up it would run through flag and heads of the grace notes: there it
    /// ends further down the stem, if that is long enough.
    PlacedCurve slurFrom(const PagePoint& from) const {
        for (int lower = 0; lower <= flatSlur; ++lower)
            for (double drop = 0; drop == 0 || mayEndLower(from, drop); drop += slurDrop) {
                const PlacedCurve slur = slurTo(from, slurEnd(drop), lower);
                if (isClear(slur) && isClearOfGraces(slur)) return slur;
            }
        int lower = 0;
        while (lower < lowestSlur && !isClear(slurTo(from, slurEnd(0), lower)))
            ++lower;
        return slurTo(from, slurEnd(0), lower);
    }
    bool endsBeforeStem() const {
        const PageBox& lowest = laid.shape.notes.front().box;
        // A head on the left of its stem has none under it.
        return laid.hasStem() && !laid.piece.stemUp && (lowest.left + lowest.right) / 2 >= laid.shape.stemX;
    }
    bool mayEndLower(const PagePoint& from, double drop) const {
        if (!endsBeforeStem() || !laid.stem) return false;
        const double y = slurEnd(drop).y;
        const double beams = static_cast<double>(laid.piece.beams.size()) * perBeam;
        const double lowest = laid.stem->endY - std::max(beams, aboveStemEnd);
        return y < std::min(from.y + belowGraces, lowest);
    }
    PlacedCurve slurTo(const PagePoint& from, const PagePoint& to, int lower) const {
        return slurOver(from, to, std::max(from.y, to.y) + 0.55 + lower * 0.2, graceSlurSag + lower * 0.3);
    }
    /// Under the lowest head, or where its stem is in the way there, left of the stem and of what stands
    /// before the head; there it may `drop` under the head's side.
    PagePoint slurEnd(double drop) const {
        const PageBox& lowest = laid.shape.notes.front().box;
        if (!endsBeforeStem()) return {laid.x + (lowest.left + lowest.right) / 2, laid.lowestY() + 0.7};
        const double y = laid.lowestY() + 0.55 + drop;
        return {laid.x + leftOfSigns(y) - besideStem, y};
    }
    /// The left edge of what hangs lower than `y` between the grace notes and the stem.
    double leftOfSigns(double y) const {
        const double graces = laid.shape.graceHeads.back().x + font.width(Smufl::NoteheadBlack) * graceScale;
        double left = laid.shape.stemX;
        for (const PageBox& box : inkBeside())
            if (box.left > graces && box.bottom + slurClearance > y) left = std::min(left, box.left);
        return left;
    }
    /// What stands at its heads and grace notes, ledger lines aside; about their own place.
    std::vector<PageBox> inkBeside() const {
        std::vector<PageBox> ink;
        const auto add = [&](const std::vector<PageBox>& boxes) {
            ink.insert(ink.end(), boxes.begin(), boxes.end());
        };
        for (const PlacedGlyph& glyph : laid.shape.shapes.glyphs)
            ink.push_back(boxOf(glyph, font));
        for (const PlacedLine& line : laid.shape.shapes.lines)
            if (line.note) add(boxesAlong(line));
        for (const PlacedCurve& curve : laid.shape.shapes.curves)
            add(boxesAlong(curve));
        return ink;
    }
    /// Down to `low`, but no further than `sag` under either end, so that a leap up is no loop.
    PlacedCurve slurOver(const PagePoint& from, const PagePoint& to, double low, double sag) const {
        const double width = to.x - from.x;
        return {{{from,
                  {from.x + width * 0.2, std::min(low, from.y + sag)},
                  {from.x + width * 0.85, std::min(low, to.y + sag)},
                  to}},
                font.usual("slurEndpointThickness") * 0.8,
                font.usual("slurMidpointThickness") * 0.8};
    }
    /// The grace notes' own flag, and the heads behind the first.
    bool isClearOfGraces(const PlacedCurve& slur) const {
        std::vector<PageBox> graces;
        if (flag) graces.push_back(*flag);
        for (std::size_t i = 1; i < laid.shape.graceHeads.size(); ++i)
            graces.push_back(boxOf(PlacedGlyph{Smufl::NoteheadBlack, head(i), graceScale, {}}, font));
        const std::vector<PageBox> parts = boxesAlong(slur);
        return std::none_of(graces.begin(), graces.end(), [&](const PageBox& box) {
            return std::any_of(parts.begin(), parts.end(),
                               [&](const PageBox& part) { return part.overlaps(box); });
        });
    }
    /// Of heads, accidentals, parentheses and slides between its ends.
    bool isClear(const PlacedCurve& slur) const {
        const std::vector<PageBox> parts = boxesAlong(slur);
        const double left = slur.points.front().x + 0.3;
        const double right = slur.points.back().x - 0.3;
        const auto isFree = [&](PageBox box) {
            box = box.moved({laid.x, 0});
            box.bottom += slurClearance;
            return std::none_of(parts.begin(), parts.end(), [&](const PageBox& part) {
                return part.right > left && part.left < right && part.overlaps(box);
            });
        };
        const std::vector<PageBox> ink = inkBeside();
        return std::all_of(ink.begin(), ink.end(), isFree);
    }

    const LaidPiece& laid;
    Sketch& sketch;
    const FontMetrics& font;
    double thickness;
    /// The room of a single one's.
    std::optional<PageBox> flag;
};

} // namespace

LaidStem stemTo(const LaidPiece& laid, double endY, const FontMetrics& font) {
    const Smufl head = headGlyph(laid.piece.page.value.denominator);
    const double x = laid.x + laid.shape.stemX + font.usual("stemThickness") / 2;
    const double headY =
        laid.piece.stemUp ? laid.lowestY() + font.stemUp(head).y : laid.highestY() + font.stemDown(head).y;
    return {x, headY, endY};
}

void drawStem(const LaidPiece& laid, Sketch& sketch) {
    sketch.add(PlacedLine{{laid.stem->x, laid.stem->headY},
                          {laid.stem->x, laid.stem->endY},
                          sketch.metrics().usual("stemThickness"),
                          laid.note()});
}

void layOutSingleStems(LaidLine& line, Sketch& sketch) {
    for (LaidPiece& laid : line) {
        if (!laid.hasStem() || !laid.piece.beams.empty()) continue;
        laid.stem = stemTo(laid, singleStemEnd(laid), sketch.metrics());
        if (laid.piece.page.value.denominator >= 8) drawFlag(laid, sketch);
        drawStem(laid, sketch);
    }
}

void layOutGraceStems(const LaidLine& line, Sketch& sketch) {
    for (const LaidPiece& laid : line)
        if (!laid.shape.graceHeads.empty()) GraceGroup(laid, sketch).draw();
}

} // namespace earwright
