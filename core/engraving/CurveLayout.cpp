#include "core/engraving/CurveLayout.h"

#include "core/engraving/Extent.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright {

namespace {

/// Between a curve's end and its head or stem.
constexpr double tieGap = 0.12;
constexpr double tieFromHead = 0.55;
constexpr double openTie = 1.7;
/// From the top of a bend to the tie over it.
constexpr double overBend = 0.2;
constexpr double slurFromHead = 0.45;
constexpr double slurFromStem = 0.3;
constexpr double clearance = 0.25;
constexpr double steepestSlur = 0.35;

PlacedCurve bowed(const PagePoint& from, const PagePoint& to, double height, bool above, double share) {
    const double by = (above ? -height : height) * 4 / 3;
    const double width = to.x - from.x;
    const double rise = to.y - from.y;
    return {{{from,
              {from.x + width * share, from.y + rise * share + by},
              {to.x - width * share, to.y - rise * share + by},
              to}}};
}

void drawTie(const PagePoint& from, const PagePoint& to, bool above, Sketch& sketch) {
    const double width = to.x - from.x;
    const double height = std::clamp(0.18 + 0.07 * width, 0.25, 0.9);
    PlacedCurve tie = bowed(from, to, height, above, 0.3);
    tie.endThickness = sketch.metrics().usual("tieEndpointThickness");
    tie.midThickness = sketch.metrics().usual("tieMidpointThickness");
    sketch.add(tie);
}

bool isBent(const StaffHead& head) {
    return head.phrasing.bend.has_value();
}

/// Of head `index` of a piece. The curve of a bend rises from its head: that one's tie goes under it, as do
/// those of the heads below.
bool tieBowsUp(const LaidPiece& laid, std::size_t index) {
    const std::vector<StaffHead>& heads = laid.piece.heads;
    if (std::any_of(heads.begin() + static_cast<std::ptrdiff_t>(index), heads.end(), isBent)) return false;
    if (heads.size() == 1) return !laid.piece.stemUp;
    return index * 2 >= heads.size();
}

/// Ends high or low enough that the tie does not run along a staff line through a head, nor through the bend
/// of a head a second below.
double tieY(const LaidPiece& laid, std::size_t index) {
    const std::vector<StaffHead>& heads = laid.piece.heads;
    const double own = yOfPosition(heads[index].position);
    if (!tieBowsUp(laid, index)) return own + tieFromHead;
    double y = own - tieFromHead;
    for (std::size_t under = 0; under < index && !laid.piece.page.tiedFromBefore; ++under)
        if (isBent(heads[under])) y = std::min(y, yOfPosition(heads[under].position) - bendRise - overBend);
    return y;
}

class SlurMaker {
public:
    SlurMaker(const LaidLine& pieces, std::size_t firstPiece, std::size_t lastPiece, Sketch& onto)
        : line(pieces), first(firstPiece), last(lastPiece), sketch(onto) {
        for (std::size_t i = first; i <= last; ++i)
            above = above || (!line[i].isRest() && !line[i].piece.stemUp);
    }

    /// An end that lies beyond this line comes as its x.
    void draw(std::optional<double> openLeft, std::optional<double> openRight) {
        PagePoint from = endAt(line[first]);
        PagePoint to = endAt(line[last]);
        if (openLeft) from = {*openLeft, to.y};
        if (openRight) to = {*openRight, from.y};
        if (to.x - from.x < 1) return;
        lessSteep(from, to);
        PlacedCurve slur = clearOfAll(from, to);
        slur.endThickness = sketch.metrics().usual("slurEndpointThickness");
        slur.midThickness = sketch.metrics().usual("slurMidpointThickness");
        sketch.add(slur);
    }

private:
    double outward(double y, double by) const { return above ? y - by : y + by; }
    bool isFurtherOut(double y, double than) const { return above ? y < than : y > than; }

    PagePoint endAt(const LaidPiece& laid) const {
        const bool atStem = laid.stem && laid.piece.stemUp == above;
        const double x = atStem ? laid.stem->x : laid.middle();
        const double own = atStem  ? outward(laid.stem->endY, slurFromStem)
                           : above ? laid.highestY() - 0.5 - slurFromHead
                                   : laid.lowestY() + 0.5 + slurFromHead;
        // Marks that stand there already come inside the slur.
        const double half = 0.5;
        const double taken = above ? sketch.topOver(x - half, x + half, own + 1)
                                   : sketch.bottomUnder(x - half, x + half, own - 1);
        const double clear = outward(taken, clearance);
        return {x, isFurtherOut(clear, own) ? clear : own};
    }

    /// Brings the lower end of a steep slur (the upper one below the staff) further out.
    void lessSteep(PagePoint& from, PagePoint& to) const {
        const double most = steepestSlur * (to.x - from.x) + 0.8;
        const double rise = to.y - from.y;
        if (std::abs(rise) <= most) return;
        const double over = std::abs(rise) - most;
        PagePoint& inner = isFurtherOut(from.y, to.y) ? to : from;
        inner.y = outward(inner.y, over);
    }

    PlacedCurve clearOfAll(PagePoint from, PagePoint to) const {
        const double width = to.x - from.x;
        const double least = std::clamp(0.5 + 0.05 * width, 0.7, 2.0);
        const double most = std::max(least, std::min(0.3 * width, 4.0));
        for (int lift = 0; lift < 40; ++lift) {
            for (double height = least; height <= most + 1e-9; height += 0.2) {
                const PlacedCurve slur = bowed(from, to, height, above, 0.25);
                if (isClear(slur)) return slur;
            }
            from.y = outward(from.y, 0.25);
            to.y = outward(to.y, 0.25);
        }
        return bowed(from, to, least, above, 0.25);
    }

    bool isClear(const PlacedCurve& slur) const {
        const double left = slur.points.front().x + 0.3;
        const double right = slur.points.back().x - 0.3;
        for (const PageBox& part : boxesAlong(slur)) {
            if (part.right < left || part.left > right) continue;
            const double inner = above ? part.bottom + clearance : part.top - clearance;
            const double taken = above ? sketch.topOver(part.left, part.right, inner)
                                       : sketch.bottomUnder(part.left, part.right, inner);
            if (taken != inner) return false;
        }
        return true;
    }

    const LaidLine& line;
    std::size_t first;
    std::size_t last;
    Sketch& sketch;
    bool above = false;
};

} // namespace

void layOutTies(const LaidLine& line, double right, Sketch& sketch) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const LaidPiece& laid = line[i];
        for (std::size_t head = 0; head < laid.piece.heads.size(); ++head) {
            const double y = tieY(laid, head);
            const bool above = tieBowsUp(laid, head);
            const double begin = laid.x + laid.shape.headsLeft;
            const double end = laid.x + laid.shape.headsRight;
            if (i == 0 && laid.piece.page.tiedFromBefore)
                drawTie({begin - openTie, y}, {begin - tieGap, y}, above, sketch);
            if (!laid.piece.page.tiedOn) continue;
            const bool goesOn = i + 1 < line.size();
            const double to = goesOn ? line[i + 1].x + line[i + 1].shape.headsLeft - tieGap
                                     : std::max(right, end + openTie);
            const double from = laid.piece.page.value.dotted && to - laid.x > 3.5
                                    ? laid.x + laid.shape.right + tieGap
                                    : end + tieGap;
            drawTie({from, y}, {to, y}, above, sketch);
        }
    }
}

void layOutSlurs(const LaidLine& line, const std::vector<bool>& slurred, double left, double right,
                 Sketch& sketch) {
    const auto eventAt = [&](std::size_t i) { return line[i].piece.page.event; };
    const auto isSlurred = [&](std::size_t event) { return event < slurred.size() && slurred[event]; };
    for (std::size_t first = 0; first < line.size();) {
        if (!eventAt(first) || !(isSlurred(*eventAt(first)) || isSlurred(*eventAt(first) + 1))) {
            ++first;
            continue;
        }
        // To the last piece of the last event that is slurred on.
        std::size_t last = first;
        while (last + 1 < line.size() && eventAt(last + 1) &&
               (eventAt(last + 1) == eventAt(last) || isSlurred(*eventAt(last + 1))))
            ++last;
        const bool fromBefore = isSlurred(*eventAt(first)) && first == 0;
        const bool goesOn = last + 1 == line.size() && isSlurred(*eventAt(last) + 1);
        if (last > first || fromBefore || goesOn)
            SlurMaker(line, first, last, sketch)
                .draw(fromBefore ? std::optional(left) : std::nullopt,
                      goesOn ? std::optional(right) : std::nullopt);
        first = last + 1;
    }
}

} // namespace earwright
