#include "core/engraving/GhostParentheses.h"

#include "core/engraving/PieceShape.h"

#include <utility>

namespace earwright {

namespace {

/// Positions between heads whose parentheses would meet.
constexpr int nearHeads = 2;
constexpr double thinEnd = 0.06;
constexpr double thickMiddle = 0.16;
/// How far from its ends a tall one is bowed.
constexpr double bowed = 0.5;

class ParenthesisMaker {
public:
    ParenthesisMaker(double leftEdge, double rightEdge, const FontMetrics& metrics)
        : left(leftEdge - parenthesisGap), right(rightEdge + parenthesisGap), font(metrics) {}

    void addAround(const StaffHead& head) {
        const double y = yOfPosition(head.position);
        const auto add = [&](Smufl sign, double x) { made.glyphs.push_back({sign, {x, y}, 1, head.note}); };
        add(Smufl::NoteheadParenthesisLeft, left - font.box(Smufl::NoteheadParenthesisLeft).right);
        add(Smufl::NoteheadParenthesisRight, right - font.box(Smufl::NoteheadParenthesisRight).left);
    }

    /// As far over and under the heads, and as far bowed, as the font's own.
    void addAround(const StaffHead& lowest, const StaffHead& highest) {
        const PageBox usual = font.box(Smufl::NoteheadParenthesisLeft);
        const double top = yOfPosition(highest.position) + usual.top;
        const double bottom = yOfPosition(lowest.position) + usual.bottom;
        const double width = usual.width();
        made.curves.push_back(parenthesis(ParenthesisSide::Left, left, top, bottom, width, lowest.note));
        made.curves.push_back(parenthesis(ParenthesisSide::Right, right, top, bottom, width, lowest.note));
    }

    PlacedShapes made;

private:
    double left;
    double right;
    const FontMetrics& font;
};

} // namespace

PlacedCurve parenthesis(ParenthesisSide side, double x, double top, double bottom, double width,
                        NoteId note) {
    // The middle of a curve is three quarters of the way to its control points.
    const double by = (width - thickMiddle / 2) * 4 / 3;
    const double far = side == ParenthesisSide::Left ? x - by : x + by;
    return {{{{x, top}, {far, top + bowed}, {far, bottom - bowed}, {x, bottom}}}, thinEnd, thickMiddle, note};
}

PlacedShapes ghostParentheses(const std::vector<StaffHead>& heads, double left, double right,
                              const FontMetrics& font) {
    ParenthesisMaker maker(left, right, font);
    const auto isGhosted = [&](std::size_t i) { return i < heads.size() && heads[i].phrasing.ghosted; };
    for (std::size_t first = 0; first < heads.size(); ++first) {
        if (!isGhosted(first)) continue;
        std::size_t last = first;
        while (isGhosted(last + 1) && heads[last + 1].position - heads[last].position <= nearHeads)
            ++last;
        if (first == last)
            maker.addAround(heads[first]);
        else
            maker.addAround(heads[first], heads[last]);
        first = last;
    }
    return std::move(maker.made);
}

} // namespace earwright
