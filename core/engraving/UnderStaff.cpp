#include "core/engraving/UnderStaff.h"

#include "core/engraving/Extent.h"
#include "core/engraving/TextWidth.h"

#include <algorithm>
#include <optional>
#include <vector>

namespace earwright {

namespace {

constexpr double staffBottom = 4;
/// Between the staff, or what hangs from it, and the row of dynamics.
constexpr double gap = 0.6;
/// Of the row's top, where the middle of hairpins and the x-height of letters are.
constexpr double rowMiddle = 1.0;
/// How far the open end of a hairpin stands apart, and half as far where it goes on over a line's end.
constexpr double opening = 1.3;
constexpr double leastPart = 0.8;
constexpr double wordsSize = 1.8;
constexpr double ringSize = 1.5;
constexpr const char* ringWords = "let ring";
constexpr double dash = 0.7;
constexpr double betweenDashes = 0.5;
constexpr double hook = 0.6;

struct PlacedDynamic {
    DynamicMark mark;
    double left = 0;
    double right = 0;
};

struct HairpinPlace {
    LineHairpin hairpin;
    double left = 0;
    double right = 0;
};

class DynamicsRow {
public:
    DynamicsRow(const SystemPlan& toLayOut, const LineMoments& where, double leftEnd, double rightEnd,
                Sketch& onto)
        : plan(toLayOut),
          moments(where),
          left(leftEnd),
          right(rightEnd),
          sketch(onto),
          font(onto.metrics()) {}

    void draw() {
        for (const DynamicMark& mark : plan.dynamics)
            placeDynamic(mark);
        for (std::size_t i = 0; i < plan.hairpins.size(); ++i)
            placeHairpin(plan.hairpins[i], i + 1 < plan.hairpins.size() ? &plan.hairpins[i + 1] : nullptr);
        if (dynamics.empty() && hairpins.empty()) return;
        const double top = rowTop();
        for (const PlacedDynamic& one : dynamics)
            drawDynamic(one, top);
        for (const HairpinPlace& one : hairpins)
            drawHairpin(one, top + rowMiddle);
    }

private:
    void placeDynamic(const DynamicMark& mark) {
        const double half = font.width(dynamicGlyph(mark.level)) / 2;
        const double middle = moments.xAt(mark.at) + font.width(Smufl::NoteheadBlack) / 2;
        dynamics.push_back({mark, middle - half, middle + half});
    }

    /// A dynamic at either end is left its room; a short hairpin is made long enough to be seen, as far as
    /// the next sign of the row leaves it room.
    void placeHairpin(const LineHairpin& hairpin, const LineHairpin* next) {
        HairpinPlace place{hairpin, hairpin.fromBefore ? left : moments.xAt(hairpin.range.begin),
                           hairpin.goesOn ? right : moments.xAt(hairpin.range.end) - besideDynamic};
        for (const PlacedDynamic& one : dynamics) {
            if (one.mark.at == hairpin.range.begin && !hairpin.fromBefore)
                place.left = std::max(place.left, one.right + besideDynamic);
            if (one.mark.at == hairpin.range.end)
                place.right = std::min(place.right, one.left - besideDynamic);
        }
        if (place.right - place.left < leastHairpin) lengthen(place, next);
        if (place.right - place.left < leastPart) startEarlier(place);
        if (place.right - place.left >= leastPart) hairpins.push_back(place);
    }

    void lengthen(HairpinPlace& place, const LineHairpin* next) const {
        double room = next ? moments.xAt(next->range.begin) - besideDynamic : right;
        for (const PlacedDynamic& one : dynamics)
            if (one.right > place.left) room = std::min(room, one.left - besideDynamic);
        place.right = std::max(place.right, std::min(place.left + leastHairpin, room));
    }

    /// As far as the sign before it in the row leaves it room.
    void startEarlier(HairpinPlace& place) const {
        double room = left;
        for (const PlacedDynamic& one : dynamics)
            if (one.right < place.right) room = std::max(room, one.right + besideDynamic);
        if (!hairpins.empty()) room = std::max(room, hairpins.back().right + besideDynamic);
        place.left = std::min(place.left, std::max(room, place.right - leastHairpin));
    }

    double rowTop() const {
        double lowest = staffBottom;
        for (const PlacedDynamic& one : dynamics)
            lowest = sketch.bottomUnder(one.left - 0.3, one.right + 0.3, lowest);
        for (const HairpinPlace& one : hairpins)
            lowest = sketch.bottomUnder(one.left, one.right, lowest);
        return lowest + gap;
    }

    void drawDynamic(const PlacedDynamic& one, double top) {
        const Smufl glyph = dynamicGlyph(one.mark.level);
        sketch.add(PlacedGlyph{glyph, {one.left - font.box(glyph).left, top + rowMiddle + 0.5}, 1, {}});
    }

    /// In pieces where a dynamic stands in its way.
    void drawHairpin(const HairpinPlace& one, double middle) {
        const double end = one.right;
        double from = one.left;
        for (const PlacedDynamic& in : dynamics) {
            if (in.right < from || in.left > end) continue;
            drawPart(one, from, in.left - besideDynamic, end, middle);
            from = in.right + besideDynamic;
        }
        drawPart(one, from, end, end, middle);
    }

    void drawPart(const HairpinPlace& one, double from, double to, double end, double middle) {
        if (to - from < leastPart) return;
        const bool isLouder = one.hairpin.kind == HairpinKind::Louder;
        // Half open where the line breaks it.
        const double atLeft = isLouder ? (one.hairpin.fromBefore ? opening / 2 : 0) : opening;
        const double atRight = isLouder ? opening : (one.hairpin.goesOn ? opening / 2 : 0);
        const auto openAt = [&](double x) {
            return atLeft + (atRight - atLeft) * (x - one.left) / (end - one.left);
        };
        const double thickness = font.usual("hairpinThickness");
        for (const double sign : {-0.5, 0.5})
            sketch.add(PlacedLine{
                {from, middle + sign * openAt(from)}, {to, middle + sign * openAt(to)}, thickness, {}});
    }

    const SystemPlan& plan;
    const LineMoments& moments;
    double left;
    double right;
    Sketch& sketch;
    const FontMetrics& font;
    std::vector<PlacedDynamic> dynamics;
    std::vector<HairpinPlace> hairpins;
};

/// One stretch of ringing notes: indexes of its first and last piece.
struct Ringing {
    std::size_t first = 0;
    std::size_t last = 0;
};

std::vector<Ringing> ringingOf(const LaidLine& line) {
    std::vector<Ringing> found;
    bool goesOn = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool rings = !line[i].isRest() && line[i].piece.phrasing.letRing;
        if (rings && goesOn)
            found.back().last = i;
        else if (rings)
            found.push_back({i, i});
        goesOn = rings;
    }
    return found;
}

class RingLine {
public:
    /// Its words end before `limit`.
    RingLine(double from, double to, double limit, bool isOver, NoteId its, Sketch& onto)
        : left(std::min(from, limit - wordsWidth())), right(to), over(isOver), note(its), sketch(onto) {}

    void draw() {
        const double width = wordsWidth();
        right = std::max(right, left + width + 0.3);
        const double y = over ? sketch.topOver(left, right, -0.6) - 0.4 - 0.22 * ringSize
                              : sketch.bottomUnder(left, right, staffBottom + 0.3) + 0.4 + 0.75 * ringSize;
        sketch.add(PlacedText{ringWords, {left, y}, ringSize, TextRole::Words, TextAnchor::Left, note});
        const double height = y - 0.25 * ringSize;
        const double from = left + width + betweenDashes;
        if (right - from < dash) return;
        for (double x = from; x < right; x += dash + betweenDashes)
            stroke({x, height}, {std::min(x + dash, right), height});
        stroke({right, height}, {right, height + (over ? hook : -hook)});
    }

private:
    static double wordsWidth() { return textWidth(ringWords) * ringSize * 1.08; }
    void stroke(const PagePoint& a, const PagePoint& b) {
        sketch.add(PlacedLine{a, b, sketch.metrics().usual("octaveLineThickness"), note});
    }

    double left;
    double right;
    bool over;
    NoteId note;
    Sketch& sketch;
};

} // namespace

Smufl dynamicGlyph(Dynamic level) {
    switch (level) {
    case Dynamic::ppp:
        return Smufl::DynamicPPP;
    case Dynamic::pp:
        return Smufl::DynamicPP;
    case Dynamic::p:
        return Smufl::DynamicPiano;
    case Dynamic::mp:
        return Smufl::DynamicMP;
    case Dynamic::f:
        return Smufl::DynamicForte;
    case Dynamic::ff:
        return Smufl::DynamicFF;
    case Dynamic::fff:
        return Smufl::DynamicFFF;
    case Dynamic::sfz:
        return Smufl::DynamicSforzato;
    case Dynamic::mf:
        break;
    }
    return Smufl::DynamicMF;
}

void layOutDynamics(const SystemPlan& plan, const LineMoments& moments, double left, double right,
                    Sketch& sketch) {
    DynamicsRow(plan, moments, left, right, sketch).draw();
}

void layOutWordsBelow(const SystemPlan& plan, const LineMoments& moments, Sketch& sketch) {
    for (const TextMark& mark : plan.texts) {
        if (!mark.below) continue;
        const double width = textWidth(mark.text) * wordsSize * 1.12;
        const double x = std::max(0.0, std::min(moments.xAt(mark.at), plan.width - width));
        const double y =
            sketch.bottomUnder(x - 0.3, x + width + 0.3, staffBottom + 0.3) + gap + 0.75 * wordsSize;
        sketch.add(PlacedText{mark.text, {x, y}, wordsSize, TextRole::Words, TextAnchor::Left, {}});
    }
}

void layOutLetRing(const LaidLine& line, double right, bool over, Sketch& sketch) {
    for (const Ringing& ringing : ringingOf(line)) {
        const LaidPiece& first = line[ringing.first];
        const double end = ringing.last + 1 < line.size()
                               ? line[ringing.last + 1].x - line[ringing.last + 1].shape.left - 0.4
                               : right;
        RingLine(first.x, end, right, over, first.note(), sketch).draw();
    }
}

} // namespace earwright
