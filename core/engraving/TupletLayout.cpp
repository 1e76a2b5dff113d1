#include "core/engraving/TupletLayout.h"

#include <algorithm>
#include <span>
#include <string>

namespace earwright {

namespace {

constexpr double numberScale = 0.85;
constexpr double gap = 0.4;
constexpr double hook = 0.7;
constexpr double besideNumber = 0.35;
constexpr double staffBottom = 4;
/// Brackets stay clear of the staff.
constexpr double clearOfStaff = 0.8;
constexpr double besideStaff = 0.4;

class TupletMark {
public:
    TupletMark(std::span<const LaidPiece> group, Sketch& onto)
        : pieces(group), sketch(onto), font(onto.metrics()) {
        for (const char digit : std::to_string(pieces.front().piece.page.value.tuplet->actual))
            digits.push_back(digitOf(Smufl::Tuplet0, digit - '0'));
        for (const Smufl digit : digits)
            width += font.box(digit).right * numberScale;
        height = font.box(digits.front()).height() * numberScale;
    }

    void draw() {
        const bool above = standsAbove();
        if (hasOwnBeam())
            drawAtBeam(above);
        else
            drawBracket(above);
    }

private:
    bool standsAbove() const {
        int up = 0;
        int down = 0;
        for (const LaidPiece& laid : pieces)
            if (!laid.isRest()) ++(laid.piece.stemUp ? up : down);
        return up >= down;
    }

    bool hasOwnBeam() const {
        const auto word = [](const LaidPiece& laid) {
            return laid.piece.beams.empty() ? std::string() : laid.piece.beams.front();
        };
        return pieces.size() > 1 && word(pieces.front()) == "begin" && word(pieces.back()) == "end" &&
               std::all_of(pieces.begin() + 1, pieces.end() - 1,
                           [&](const LaidPiece& laid) { return word(laid) == "continue"; });
    }

    void drawNumber(double middle, double baseline) {
        double x = middle - width / 2;
        for (const Smufl digit : digits) {
            sketch.add(PlacedGlyph{digit, {x, baseline}, numberScale, {}});
            x += font.box(digit).right * numberScale;
        }
    }

    void drawAtBeam(bool above) {
        const LaidStem& first = *pieces.front().stem;
        const LaidStem& last = *pieces.back().stem;
        const double middle = (first.x + last.x) / 2;
        const double beam = (first.endY + last.endY) / 2;
        const double slope = std::abs(last.endY - first.endY) * width / std::max(1.0, last.x - first.x) / 2;
        // Beams inside the staff leave the number outside of it.
        drawNumber(middle, above ? std::min(beam - gap - slope, -besideStaff)
                                 : std::max(beam + gap + slope, staffBottom + besideStaff) + height);
    }

    void drawBracket(bool above) {
        const double left = pieces.front().x - 0.1;
        const double right = pieces.back().x + pieces.back().shape.headWidth + 0.1;
        const double y = above ? std::min(sketch.topOver(left, right, 0) - gap - hook, -clearOfStaff - hook)
                               : std::max(sketch.bottomUnder(left, right, staffBottom) + gap + hook,
                                          staffBottom + clearOfStaff + hook);
        const double thickness = font.usual("tupletBracketThickness");
        const double inward = above ? hook : -hook;
        const double middle = (left + right) / 2;
        const double halfGap = width / 2 + besideNumber;
        const auto stroke = [&](PagePoint from, PagePoint to) {
            sketch.add(PlacedLine{from, to, thickness, {}});
        };
        stroke({left, y + inward}, {left, y});
        stroke({right, y + inward}, {right, y});
        if (middle - halfGap > left) stroke({left, y}, {middle - halfGap, y});
        if (middle + halfGap < right) stroke({middle + halfGap, y}, {right, y});
        drawNumber(middle, y + height / 2);
    }

    std::span<const LaidPiece> pieces;
    Sketch& sketch;
    const FontMetrics& font;
    std::vector<Smufl> digits;
    double width = 0;
    double height = 0;
};

} // namespace

void layOutTuplets(const LaidLine& line, Sketch& sketch) {
    for (std::size_t first = 0; first < line.size();) {
        if (!line[first].piece.page.value.tuplet) {
            ++first;
            continue;
        }
        std::size_t last = first;
        while (last + 1 < line.size() && !line[last].piece.page.endsTuplet &&
               line[last + 1].piece.page.value.tuplet)
            ++last;
        TupletMark(std::span(line).subspan(first, last - first + 1), sketch).draw();
        first = last + 1;
    }
}

} // namespace earwright
