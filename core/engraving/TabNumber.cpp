#include "core/engraving/TabNumber.h"

#include "core/engraving/FretReach.h"
#include "core/engraving/GhostParentheses.h"
#include "core/engraving/TabFrame.h"
#include "core/engraving/TextWidth.h"

#include <algorithm>

namespace earwright {

namespace {

/// Between a number and the ends of its parenthesis, and from there to its bow.
constexpr double beforeEnds = 0.14;
constexpr double bow = 0.4;
/// How far the ends stand over and under the middle of a number: clear of a number on the next string.
constexpr double beyondMiddle = 0.72;

using Places = std::map<NoteId, TabPlace>;

double halfOfDigits(const StaffHead& head, const Places& places) {
    return textWidth(fretText(head, places)) * fretSize / 2;
}

/// The ghosted heads of a piece by their strings.
std::map<int, const StaffHead*> ghostsByString(const LaidPiece& laid, const Places& places) {
    std::map<int, const StaffHead*> ghosts;
    for (const StaffHead& head : laid.piece.heads)
        if (const auto place = places.find(head.note); head.phrasing.ghosted && place != places.end())
            ghosts.emplace(place->second.string, &head);
    return ghosts;
}

/// Ghosted numbers that share their parentheses.
struct Group {
    int top = 0;
    int bottom = 0;
    /// Of the widest.
    double halfOfDigits = 0;
    NoteId note;
};

std::vector<Group> groupsOf(const LaidPiece& laid, const Places& places) {
    std::vector<Group> groups;
    for (const auto& [string, head] : ghostsByString(laid, places)) {
        if (groups.empty() || groups.back().bottom + 1 < string) groups.push_back({string, string, 0, {}});
        Group& group = groups.back();
        group.bottom = string;
        group.halfOfDigits = std::max(group.halfOfDigits, halfOfDigits(*head, places));
        group.note = head->note;
    }
    return groups;
}

} // namespace

std::string fretText(const StaffHead& head, const Places& places) {
    const auto place = places.find(head.note);
    return place == places.end() ? std::string() : std::to_string(place->second.fret);
}

double halfOfNumber(const LaidPiece& laid, const StaffHead& head, const Places& places) {
    const double half = halfOfDigits(head, places);
    if (half == 0 || !head.phrasing.ghosted) return half;
    const int string = places.at(head.note).string;
    double widest = half;
    for (const Group& group : groupsOf(laid, places))
        if (group.top <= string && string <= group.bottom) widest = std::max(widest, group.halfOfDigits);
    return widest + beforeEnds + bow;
}

PlacedShapes tabParentheses(const LaidPiece& laid, const Places& places, int strings) {
    PlacedShapes shapes;
    for (const Group& group : groupsOf(laid, places)) {
        if (group.top < 0 || group.bottom >= strings) continue;
        const double top = group.top * tabLineGap - beyondMiddle;
        const double bottom = group.bottom * tabLineGap + beyondMiddle;
        const double x = group.halfOfDigits + beforeEnds;
        shapes.curves.push_back(parenthesis(ParenthesisSide::Left, -x, top, bottom, bow, group.note));
        shapes.curves.push_back(parenthesis(ParenthesisSide::Right, x, top, bottom, bow, group.note));
    }
    return shapes;
}

} // namespace earwright
