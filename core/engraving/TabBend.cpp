#include "core/engraving/TabBend.h"

#include "core/engraving/TextWidth.h"

#include <algorithm>
#include <array>

namespace earwright {

namespace {

constexpr double amountSize = 1.4;
constexpr double arc = 1.2;
constexpr double head = 0.3;
/// How far over the top line an arrow points, and its amount stands over that.
constexpr double overLines = 1.5;
constexpr double gap = 0.25;

bool comesDown(const Bend& bend) {
    return bend.shape == BendShape::UpAndDown || bend.shape == BendShape::PrebentDown;
}

double pulledWidth(const Bend& bend) {
    return isPrebent(bend) ? head : arc;
}

class Arrows {
public:
    Arrows(NoteId itsNote, Sketch& onto) : note(itsNote), tab(onto) {}

    void straight(const PagePoint& from, const PagePoint& to) {
        stroke(from, to);
        point(to, -1);
    }

    /// Leaves sideways and arrives upright.
    void curved(const PagePoint& from, const PagePoint& to) {
        tab.add(
            PlacedCurve{{{from, {from.x + (to.x - from.x) * 0.7, from.y}, {to.x, (from.y + to.y) / 2}, to}},
                        thickness(),
                        thickness(),
                        note});
        point(to, to.y < from.y ? -1 : 1);
    }

private:
    double thickness() const { return tab.metrics().usual("stemThickness"); }
    void stroke(const PagePoint& from, const PagePoint& to) {
        tab.add(PlacedLine{from, to, thickness(), note});
    }
    void point(const PagePoint& tip, double direction) {
        stroke({tip.x - head * 0.7, tip.y - direction * head}, tip);
        stroke({tip.x + head * 0.7, tip.y - direction * head}, tip);
    }

    NoteId note;
    Sketch& tab;
};

} // namespace

bool isPrebent(const Bend& bend) {
    return bend.shape == BendShape::PrebentHeld || bend.shape == BendShape::PrebentDown;
}

std::string bendAmount(const Bend& bend) {
    static constexpr std::array<const char*, 4> parts{"", "¼", "½", "¾"};
    if (bend.quarterTones == 4) return "full";
    const int whole = bend.quarterTones / 4;
    const std::string part = parts[static_cast<std::size_t>(bend.quarterTones % 4)];
    return whole == 0 ? part : std::to_string(whole) + part;
}

double bendWidth(const Bend& bend) {
    const double pulled = pulledWidth(bend);
    const double amount = pulled + textWidth(bendAmount(bend)) * amountSize / 2;
    const double arrows = pulled + (comesDown(bend) ? arc : 0) + head;
    return std::max(amount, arrows);
}

void drawTabBends(std::vector<TabBent> together, Sketch& tab) {
    std::sort(together.begin(), together.end(),
              [](const TabBent& a, const TabBent& b) { return a.from.y < b.from.y; });
    std::vector<std::string> amounts;
    double x = 0;
    double half = 0;
    for (const TabBent& bent : together) {
        x = std::max(x, bent.from.x + pulledWidth(bent.bend));
        const std::string amount = bendAmount(bent.bend);
        half = std::max(half, textWidth(amount) * amountSize / 2);
        if (std::find(amounts.begin(), amounts.end(), amount) == amounts.end()) amounts.push_back(amount);
    }
    const PagePoint top{x, std::min(-overLines, tab.topOver(x - half, x + half, 0) - gap)};
    for (const TabBent& bent : together) {
        Arrows arrows(bent.note, tab);
        if (isPrebent(bent.bend))
            arrows.straight({x, bent.from.y}, top);
        else
            arrows.curved(bent.from, top);
        if (comesDown(bent.bend)) arrows.curved({x + 0.15, top.y + 0.1}, {x + arc, bent.from.y});
    }
    for (auto amount = amounts.rbegin(); amount != amounts.rend(); ++amount) {
        const double baseline = tab.topOver(x - half, x + half, top.y) - gap;
        tab.add(PlacedText{*amount,
                           {x, baseline - 0.22 * amountSize},
                           amountSize,
                           TextRole::Words,
                           TextAnchor::Centre,
                           together.front().note});
    }
}

} // namespace earwright
