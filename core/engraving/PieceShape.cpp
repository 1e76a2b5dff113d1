#include "core/engraving/PieceShape.h"

#include "core/engraving/AccidentalLayout.h"
#include "core/engraving/Extent.h"
#include "core/engraving/GhostParentheses.h"
#include "core/engraving/HeadOffsets.h"
#include "core/engraving/LedgerLines.h"
#include "core/engraving/StrokeStagger.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <iterator>
#include <set>

namespace earwright {

namespace {

constexpr double graceScale = 0.6;
/// Between two grace notes, and between the last one and its note.
constexpr double graceGap = 0.45;
/// The flag of a single one reaches towards its note.
constexpr double flaggedGraceGap = 0.8;
constexpr double dotGap = 0.35;
constexpr double slideLength = 1.5;
constexpr double slideRise = 1.0;
constexpr double slideGap = 0.25;
/// The curve of a bend beside its head.
constexpr double bendLength = 1.4;
/// What an accidental keeps from the bow of a parenthesis, beyond what it keeps from a head.
constexpr double beforeParenthesis = 0.15;

int valueIndex(int denominator) {
    return std::bit_width(static_cast<unsigned>(std::clamp(denominator, 1, 1024))) - 1;
}

Smufl after(Smufl first, int steps) {
    return static_cast<Smufl>(static_cast<char32_t>(first) + static_cast<char32_t>(steps));
}

class ShapeMaker {
public:
    ShapeMaker(const StaffPiece& toDraw, const FontMetrics& metrics) : piece(toDraw), font(metrics) {}

    PieceShape make() {
        if (piece.heads.empty())
            addRest();
        else
            addNotes();
        return std::move(made);
    }

private:
    void addRest() {
        const int denominator = piece.page.value.denominator;
        if (denominator == 0) return;
        glyph = restGlyph(denominator);
        // The whole rest hangs from the second line, the others are centred on the third.
        const PlacedGlyph rest{glyph, {0, denominator == 1 ? 1.0 : 2.0}, 1, {}};
        made.shapes.glyphs.push_back(rest);
        made.headWidth = font.width(glyph);
        made.right = made.headWidth;
        made.stemX = made.headWidth / 2;
        if (piece.page.value.dotted) addDots({1.5});
    }

    void addNotes() {
        glyph = headGlyph(piece.page.value.denominator);
        made.headWidth = font.width(glyph);
        made.right = made.headWidth;
        placeHeads();
        made.stemX = piece.stemUp ? font.stemUp(glyph).x - font.usual("stemThickness") : 0;
        double leftEdge = headsLeft;
        for (std::size_t i = 0; i < piece.heads.size(); ++i)
            addHead(i);
        addParentheses();
        if (anyGhosted()) leftEdge -= parenthesisWidth() + parenthesisGap;
        leftEdge = addAccidentals(leftEdge);
        addLedgerLines(piece.heads, headsLeft, headsRight, 1);
        if (piece.page.value.dotted) addDots(dotPlaces());
        leaveRoomForFlag();
        if (piece.trillHead) addTrillHead(*piece.trillHead);
        if (!piece.page.tiedFromBefore) {
            if (anyComesFrom()) leftEdge = std::min(leftEdge, -made.left);
            leftEdge = addBefore(leftEdge, &ShapeMaker::addSlideIn);
            leftEdge = addBefore(leftEdge, &ShapeMaker::addScoop);
        }
        if (!piece.page.tiedOn) addBehind(&ShapeMaker::addSlideOut);
        if (!piece.page.tiedFromBefore) addBehind(&ShapeMaker::addBend);
        if (!piece.page.tiedOn) addBehind(&ShapeMaker::addFall);
        made.left = std::max(made.left, -leftEdge);
        addGraceNotes(leftEdge);
    }

    void placeHeads() {
        offsets = headOffsets(piece.heads, piece.stemUp, made.headWidth - font.usual("stemThickness"));
        headsLeft = *std::min_element(offsets.begin(), offsets.end());
        headsRight = *std::max_element(offsets.begin(), offsets.end()) + made.headWidth;
        made.right = std::max(made.right, headsRight);
        made.headsLeft = headsLeft;
        made.headsRight = headsRight;
    }

    /// Whether a stroke comes to a head, which has to keep clear of ledger lines.
    bool anyComesFrom() const {
        return std::any_of(piece.heads.begin(), piece.heads.end(), [](const StaffHead& head) {
            return head.phrasing.slideIn || head.phrasing.scoop;
        });
    }

    bool anyGhosted() const {
        return std::any_of(piece.heads.begin(), piece.heads.end(),
                           [](const StaffHead& head) { return head.phrasing.ghosted; });
    }

    void addHead(std::size_t index) {
        const StaffHead& head = piece.heads[index];
        const PagePoint at{offsets[index], yOfPosition(head.position)};
        made.shapes.glyphs.push_back({glyph, at, 1, head.note});
        PageBox box = font.box(glyph).moved(at);
        if (head.phrasing.ghosted) {
            const double width = parenthesisWidth();
            box = {box.left - width, box.top, box.right + width, box.bottom};
        }
        made.notes.push_back({head.note, box});
    }

    double parenthesisWidth() const { return font.width(Smufl::NoteheadParenthesisLeft); }

    void addParentheses() {
        if (!anyGhosted()) return;
        const PlacedShapes signs = ghostParentheses(piece.heads, headsLeft, headsRight, font);
        std::copy(signs.glyphs.begin(), signs.glyphs.end(), std::back_inserter(made.shapes.glyphs));
        std::copy(signs.curves.begin(), signs.curves.end(), std::back_inserter(made.shapes.curves));
        made.headsLeft = headsLeft - parenthesisGap - parenthesisWidth();
        made.headsRight = headsRight + parenthesisGap + parenthesisWidth();
        made.right = std::max(made.right, made.headsRight);
    }

    double addAccidentals(double from) {
        const double right = anyGhosted() ? from - beforeParenthesis : from;
        const auto edges = accidentalEdges(piece.heads, right, 1, font);
        double left = from;
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const StaffHead& head = piece.heads[i];
            if (!head.accidental) continue;
            addAccidental(head, {edges[i], yOfPosition(head.position)}, 1);
            left = std::min(left, edges[i]);
        }
        return left;
    }

    void addAccidental(const StaffHead& head, const PagePoint& at, double scale) {
        const PlacedShapes shapes = accidentalShapes(head, font);
        for (const PlacedGlyph& sign : shapes.glyphs)
            made.shapes.glyphs.push_back({sign.glyph, {at.x + sign.at.x * scale, at.y}, scale, head.note});
        const PageBox box = extentOf(shapes, font);
        accidentals.push_back(
            PageBox{box.left * scale, box.top * scale, box.right * scale, box.bottom * scale}.moved(at));
    }

    /// Behind their accidentals.
    void addLedgerLines(const std::vector<StaffHead>& heads, double left, double right, double scale) {
        const auto lines = ledgerLines(heads, left, right, accidentals, scale, font);
        std::copy(lines.begin(), lines.end(), std::back_inserter(made.shapes.lines));
        accidentals.clear();
        if (lines.empty() || scale != 1) return;
        const double beyond = font.usual("legerLineExtension");
        made.left = std::max(made.left, beyond - left);
        made.right = std::max(made.right, right + beyond);
    }

    /// Dots stand in spaces: beside a head on a line, in the space above it; of two in one space the lower
    /// one moves down.
    std::vector<double> dotPlaces() const {
        std::set<int, std::greater<>> spaces;
        for (std::size_t i = piece.heads.size(); i-- > 0;) {
            const int position = piece.heads[i].position;
            int space = position % 2 == 0 ? position + 1 : position;
            while (spaces.contains(space))
                space -= 2;
            spaces.insert(space);
        }
        std::vector<double> places;
        for (const int space : spaces)
            places.push_back(yOfPosition(space));
        return places;
    }

    void addDots(const std::vector<double>& places) {
        const double x = made.right + dotGap;
        for (const double y : places)
            made.shapes.glyphs.push_back({Smufl::AugmentationDot, {x, y}, 1, noteOrNone()});
        made.right = x + font.width(Smufl::AugmentationDot);
    }

    /// A small head in parentheses behind its note, without a stem (Gould, "Behind Bars", from memory).
    void addTrillHead(const StaffHead& head) {
        const double y = yOfPosition(head.position);
        double x = made.right + graceGap;
        const auto add = [&](Smufl sign) {
            made.shapes.glyphs.push_back({sign, {x, y}, graceScale, head.note});
            x += (font.box(sign).right + parenthesisGap) * graceScale;
        };
        add(Smufl::NoteheadParenthesisLeft);
        if (head.accidental) add(accidentalGlyph(*head.accidental));
        const double left = x;
        add(Smufl::NoteheadBlack);
        addLedgerLines({head}, left, x, graceScale);
        add(Smufl::NoteheadParenthesisRight);
        made.right = x;
    }

    std::optional<NoteId> noteOrNone() const {
        if (piece.heads.empty()) return {};
        return piece.heads.front().note;
    }

    void leaveRoomForFlag() {
        if (piece.page.value.denominator < 8 || !piece.beams.empty() || !piece.stemUp) return;
        const double flag = font.box(flagGlyph(piece.page.value.denominator, true)).right;
        made.right = std::max(made.right, made.stemX + flag);
    }

    /// Signs before or behind the heads that have them, one over the other; each gets where the heads end and
    /// tells where it ends itself.
    using Sign = double (ShapeMaker::*)(const StaffHead&, double);

    double addBefore(double leftEdge, Sign sign) {
        double left = leftEdge;
        for (const StaffHead& head : piece.heads)
            left = std::min(left, (this->*sign)(head, leftEdge));
        return left;
    }

    void addBehind(Sign sign) {
        const double from = made.right;
        for (const StaffHead& head : piece.heads)
            made.right = std::max(made.right, (this->*sign)(head, from));
    }

    double addSlideIn(const StaffHead& head, double from) {
        if (!head.phrasing.slideIn) return from;
        const double y = yOfPosition(head.position);
        const double sign = *head.phrasing.slideIn == SlideFrom::Below ? 1 : -1;
        const double right = from - slideGap;
        made.shapes.lines.push_back({{right - slideLength, y + sign * (slideRise + 0.2)},
                                     {right, y + sign * 0.2},
                                     font.usual("stemThickness"),
                                     head.note});
        return right - slideLength;
    }

    double addSlideOut(const StaffHead& head, double from) {
        if (!head.phrasing.slideOut) return from;
        const double y = yOfPosition(head.position);
        const double sign = *head.phrasing.slideOut == SlideTo::Down ? 1 : -1;
        const double left = from + slideGap;
        made.shapes.lines.push_back({{left, y + sign * 0.2},
                                     {left + slideLength, y + sign * (slideRise + 0.2)},
                                     font.usual("stemThickness"),
                                     head.note});
        return left + slideLength;
    }

    double staggerOf(const StaffHead& head, bool Phrasing::*mark) const {
        return strokeStagger(piece.heads, static_cast<std::size_t>(&head - piece.heads.data()), mark);
    }

    double addScoop(const StaffHead& head, double from) {
        if (!head.phrasing.scoop) return from;
        const PageBox box = font.box(Smufl::BrassScoop);
        const double x = from - slideGap - staggerOf(head, &Phrasing::scoop) - box.right;
        made.shapes.glyphs.push_back({Smufl::BrassScoop, {x, yOfPosition(head.position)}, 1, head.note});
        return x + box.left;
    }

    double addFall(const StaffHead& head, double from) {
        if (!head.phrasing.fall) return from;
        const double x = from + slideGap + staggerOf(head, &Phrasing::fall);
        made.shapes.glyphs.push_back(
            {Smufl::BrassFallLipShort, {x, yOfPosition(head.position)}, 1, head.note});
        return x + font.box(Smufl::BrassFallLipShort).right;
    }

    void stroke(const PagePoint& from, const PagePoint& to, NoteId note) {
        made.shapes.lines.push_back({from, to, font.usual("stemThickness"), note});
    }

    /// What the pitch does; upright where the string is pulled before it is struck, level where it is held.
    double addBend(const StaffHead& head, double from) {
        if (!head.phrasing.bend) return from;
        const BendShape shape = head.phrasing.bend->shape;
        const double y = yOfPosition(head.position);
        double left = from;
        const auto add = [&](double fromY, double toY, bool goesOn) {
            left += goesOn ? 0 : slideGap;
            const double right = left + bendLength;
            made.shapes.curves.push_back({{{{left, fromY},
                                            {left + bendLength * 0.6, fromY},
                                            {right, (fromY + toY) / 2},
                                            {right, toY}}},
                                          font.usual("stemThickness"),
                                          font.usual("stemThickness"),
                                          head.note});
            left = right;
        };
        if (shape == BendShape::PrebentHeld || shape == BendShape::PrebentDown) {
            left += slideGap;
            stroke({left, y}, {left, y - bendRise}, head.note);
        }
        if (shape == BendShape::PrebentHeld) {
            stroke({left, y - bendRise}, {left + bendLength, y - bendRise}, head.note);
            return left + bendLength;
        }
        if (shape == BendShape::Up || shape == BendShape::UpAndDown) add(y, y - bendRise, false);
        if (shape == BendShape::UpAndDown || shape == BendShape::PrebentDown) add(y - bendRise, y, true);
        return left;
    }

    /// From the main note leftwards; stems, flag and beam come with the other stems.
    void addGraceNotes(double leftEdge) {
        if (piece.graces.empty()) return;
        const double width = font.width(Smufl::NoteheadBlack) * graceScale;
        double right = leftEdge - (piece.graces.size() == 1 ? flaggedGraceGap : graceGap);
        for (std::size_t i = piece.graces.size(); i-- > 0;) {
            const StaffHead& head = piece.graces[i];
            const PagePoint at{right - width, yOfPosition(head.position)};
            made.shapes.glyphs.push_back({Smufl::NoteheadBlack, at, graceScale, head.note});
            made.graceHeads.insert(made.graceHeads.begin(), at);
            double left = at.x;
            if (head.accidental) {
                left = at.x + accidentalEdges({head}, 0, graceScale, font).front();
                addAccidental(head, {left, at.y}, graceScale);
            }
            addLedgerLines({head}, at.x, at.x + width, graceScale);
            made.left = std::max(made.left, -left);
            right = left - graceGap;
        }
    }

    const StaffPiece& piece;
    const FontMetrics& font;
    Smufl glyph = Smufl::NoteheadBlack;
    std::vector<double> offsets;
    /// The room of those that stand before the heads whose ledger lines come next.
    std::vector<PageBox> accidentals;
    double headsLeft = 0;
    double headsRight = 0;
    PieceShape made;
};

} // namespace

Smufl headGlyph(int denominator) {
    return denominator <= 1   ? Smufl::NoteheadWhole
           : denominator == 2 ? Smufl::NoteheadHalf
                              : Smufl::NoteheadBlack;
}

Smufl restGlyph(int denominator) {
    return after(Smufl::RestWhole, valueIndex(denominator));
}

Smufl accidentalGlyph(int alter) {
    switch (alter) {
    case -2:
        return Smufl::AccidentalDoubleFlat;
    case -1:
        return Smufl::AccidentalFlat;
    case 1:
        return Smufl::AccidentalSharp;
    case 2:
        return Smufl::AccidentalDoubleSharp;
    default:
        return Smufl::AccidentalNatural;
    }
}

Smufl flagGlyph(int denominator, bool stemUp) {
    return after(stemUp ? Smufl::Flag8thUp : Smufl::Flag8thDown, 2 * (valueIndex(denominator) - 3));
}

PieceShape pieceShape(const StaffPiece& piece, const FontMetrics& font) {
    return ShapeMaker(piece, font).make();
}

} // namespace earwright
