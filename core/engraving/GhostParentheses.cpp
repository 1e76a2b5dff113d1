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
        const auto add = [&](double x, double outwards) {
            // The middle of a curve is three quarters of the way to its control points.
            const double far = x + outwards * (usual.width() - thickMiddle / 2) * 4 / 3;
            made.curves.push_back({{{{x, top}, {far, top + bowed}, {far, bottom - bowed}, {x, bottom}}},
                                   thinEnd,
                                   thickMiddle,
                                   lowest.note});
        };
        add(left, -1);
        add(right, 1);
    }

    PlacedShapes made;

private:
    double left;
    double right;
    const FontMetrics& font;
};

} // namespace

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
