#include "core/engraving/TabLayout.h"

#include "core/engraving/Extent.h"
#include "core/engraving/MarkLayout.h"
#include "core/engraving/SlideLayout.h"
#include "core/engraving/TabBend.h"
#include "core/engraving/TabNumber.h"
#include "core/engraving/TextWidth.h"
#include "core/engraving/UnderStaff.h"

#include <algorithm>
#include <optional>

namespace earwright {

namespace {

constexpr double capital = 0.72;
constexpr double gap = besideNumber;
constexpr double slideRise = 0.45;
constexpr double letterSize = 1.3;
/// The ends of an arc over the middle of their numbers.
constexpr double overNumber = 0.85;

struct Gap {
    double left = 0;
    double right = 0;
};

class TabMaker {
public:
    TabMaker(const SystemPlan& toLayOut, const LaidLine& pieces, const std::vector<PlacedBar>& places,
             const TabEnds& itsEnds, Sketch& onto, std::vector<NoteBox>& boxes)
        : plan(toLayOut),
          line(pieces),
          bars(places),
          ends(itsEnds),
          sketch(onto),
          notes(boxes),
          gaps(static_cast<std::size_t>(plan.strings)) {}

    void make() {
        drawClef();
        for (const LaidPiece& laid : line)
            drawNumbers(laid);
        for (std::size_t i = 0; i < line.size(); ++i)
            drawSlur(i);
        drawSlurOverEnd();
        for (std::size_t i = 0; i < line.size(); ++i)
            drawSlideToNext(i);
        drawBends();
        if (plan.style.staff) drawMarks();
        layOutLetRing(line, ends.barLine - 0.5, true, sketch);
        drawLines();
    }

private:
    double yOf(int string) const { return string * tabLineGap; }
    double height() const { return tabHeight(plan.strings); }

    void drawClef() {
        const TabClef clef = tabClef(plan.strings);
        sketch.add(PlacedGlyph{clef.glyph, {tabClefLeft, height() / 2}, clef.scale, {}});
    }

    const TabPlace* placeOf(const StaffHead& head) const {
        const auto place = plan.places.find(head.note);
        const bool isThere =
            place != plan.places.end() && place->second.string >= 0 && place->second.string < plan.strings;
        return isThere ? &place->second : nullptr;
    }

    void drawNumbers(const LaidPiece& laid) {
        if (laid.piece.page.tiedFromBefore) return;
        bends.emplace_back();
        for (const StaffHead& head : laid.piece.heads)
            drawHead(laid, head);
        sketch.add(tabParentheses(laid, plan.places, plan.strings), {laid.middle(), 0});
    }

    void drawHead(const LaidPiece& laid, const StaffHead& head) {
        const TabPlace* place = placeOf(head);
        if (!place) return;
        const double half = halfOfNumber(laid, head, plan.places);
        const double y = yOf(place->string);
        drawNumber(fretText(head, plan.places), laid.middle(), y, fretSize, head.note, place->string);
        cutString(laid.middle() - half - gap, laid.middle() + half + gap, place->string);
        notes.push_back(
            {head.note,
             {laid.middle() - half, y - tabLineGap / 2, laid.middle() + half, y + tabLineGap / 2}});
        const FretReach own = reachOnString(laid, head, plan.places);
        const FretReach all = reachOfNumbers(laid, plan.places);
        if (head.phrasing.slideIn) {
            const double left = laid.middle() - own.left + gap;
            drawSlide(left, left + tabSlideLength, y, *head.phrasing.slideIn == SlideFrom::Below, head.note,
                      place->string);
        }
        const double scoops = scoopRoom(laid, sketch.metrics());
        if (head.phrasing.scoop)
            drawSign(Smufl::BrassScoop, laid.middle() - all.left - scoops + gap, y, head.note, place->string);
        drawBehind(head, laid.middle() + half + gap, y, place->string);
        if (head.phrasing.fall)
            drawSign(Smufl::BrassFallLipShort, laid.middle() + all.right, y, head.note, place->string);
        drawGraces(laid, head, *place, graceEnd(laid, head));
    }

    /// What the note does after it is struck, on its string.
    void drawBehind(const StaffHead& head, double from, double y, int string) {
        double left = from;
        if (const std::string fret = trillFretText(head, plan.places); !fret.empty()) {
            const double width = textWidth(fret) * graceFretSize;
            drawNumber(fret, left + width / 2, y, graceFretSize, head.note, string);
            left += width + gap;
        }
        if (head.phrasing.bend) {
            bends.back().push_back({*head.phrasing.bend, {left, y}, head.note});
            left += bendWidth(*head.phrasing.bend) + gap;
        }
        if (head.phrasing.slideOut)
            drawSlide(left, left + tabSlideLength, y, *head.phrasing.slideOut == SlideTo::Up, head.note,
                      string);
    }

    /// From its left edge on.
    void drawSign(Smufl glyph, double left, double y, NoteId note, int string) {
        const PageBox box = sketch.metrics().box(glyph);
        sketch.add(PlacedGlyph{glyph, {left - box.left, y}, 1, note});
        cutString(left, left + box.right - box.left, string);
    }

    void drawNumber(const std::string& text, double middle, double y, double size, NoteId note, int string) {
        const double half = textWidth(text) * size / 2;
        sketch.add(PlacedText{
            text, {middle, y + capital * size / 2}, size, TextRole::FretNumber, TextAnchor::Centre, note});
        cutString(middle - half - gap, middle + half + gap, string);
    }

    void cutString(double left, double right, int string) {
        gaps[static_cast<std::size_t>(string)].push_back({left, right});
    }

    void drawSlide(double left, double rightEnd, double y, bool rises, NoteId note, int string) {
        const double by = rises ? slideRise : -slideRise;
        sketch.add(
            PlacedLine{{left, y + by}, {rightEnd, y - by}, sketch.metrics().usual("stemThickness"), note});
        cutString(left, rightEnd, string);
    }

    void drawGraces(const LaidPiece& laid, const StaffHead& head, const TabPlace& place, double from) {
        const std::vector<int> frets = graceFrets(laid, head, plan.places);
        double x = from - graceWidth(frets);
        const double y = yOf(place.string);
        if (!frets.empty())
            drawArc({x + gap + graceFretSize * 0.25, y - 0.75}, {graceArcEnd(laid, place.string), y - 0.85});
        for (const int fret : frets) {
            const double width = textWidth(std::to_string(fret)) * graceFretSize;
            drawNumber(std::to_string(fret), x + gap + width / 2, y, graceFretSize, head.note, place.string);
            x += width + 2 * gap;
        }
    }

    /// Over the middle of the number, or before it where one on the next string is in the way.
    double graceArcEnd(const LaidPiece& laid, int string) const {
        double end = laid.middle();
        for (const StaffHead& head : laid.piece.heads)
            if (const TabPlace* place = placeOf(head); place && place->string + 1 == string)
                end = std::min(end, laid.middle() - halfOfNumber(laid, head, plan.places));
        return end;
    }

    /// From the number of the event before to this one; from the line's beginning where that one stands on
    /// the line before.
    void drawSlur(std::size_t index) {
        const LaidPiece& laid = line[index];
        if (!isSlurGoal(index)) return;
        const bool isOpen = index == 0;
        std::size_t before = isOpen ? 0 : index - 1;
        while (before > 0 && line[before].piece.page.tiedFromBefore)
            --before;
        if (line[before].isRest()) return;
        const auto to = topmost(laid);
        // A tied note is not repeated, so its number may stand on the line before.
        const auto from = isOpen ? to : topmost(line[before]);
        if (!from || !to) return;
        const bool hasNumber = !isOpen && !line[before].piece.page.tiedFromBefore;
        const double y = yOf(std::min(*from, *to)) - overNumber;
        const double end = slurEnd(laid);
        const double begin = hasNumber ? line[before].middle() + 0.2 : ends.start;
        drawArc({begin, y}, {end, y});
        if (!laid.piece.phrasing.slurBy) return;
        const std::string letter = *laid.piece.phrasing.slurBy == SlurBy::HammerOn ? "H" : "P";
        const double half = textWidth(letter) * letterSize / 2;
        const double clear = hasNumber ? bendsEnd(line[before]) + half : begin;
        drawLetter(letter, std::max((begin + end) / 2, clear), laid.note());
    }

    /// Behind the arrows and amounts of what is bent, which stand in the room over the strings; else its
    /// middle.
    double bendsEnd(const LaidPiece& laid) const {
        double end = laid.middle();
        for (const std::vector<TabBent>& together : bends)
            for (const TabBent& bent : together)
                for (const StaffHead& head : laid.piece.heads)
                    if (bent.note == head.note) end = std::max(end, bent.from.x + bendWidth(bent.bend));
        return end;
    }

    /// At the number, or at the first of its grace notes, which have an arc of their own.
    double slurEnd(const LaidPiece& laid) const {
        double end = laid.middle() - 0.2;
        for (const StaffHead& head : laid.piece.heads)
            if (const auto graces = graceFrets(laid, head, plan.places); !graces.empty())
                end = std::min(end, graceEnd(laid, head) - graceWidth(graces) + gap);
        return end;
    }

    /// Where the grace notes of a number end.
    double graceEnd(const LaidPiece& laid, const StaffHead& head) const {
        const double scoops = scoopRoom(laid, sketch.metrics());
        const double clear = scoops > 0 ? reachOfNumbers(laid, plan.places).left + scoops
                                        : reachOnString(laid, head, plan.places).left;
        return laid.middle() - clear;
    }

    bool isSlurGoal(std::size_t index) const {
        const PagePiece& page = line[index].piece.page;
        return page.event && !page.tiedFromBefore && isSlurred(*page.event);
    }
    bool isSlurred(std::size_t event) const {
        return event < plan.slurredOnString.size() && plan.slurredOnString[event];
    }

    /// To the end of the line, where the slur goes on in the next.
    void drawSlurOverEnd() {
        if (line.empty() || !line.back().piece.page.event) return;
        if (line.back().piece.page.tiedOn || !isSlurred(*line.back().piece.page.event + 1)) return;
        std::size_t first = line.size() - 1;
        while (first > 0 && line[first].piece.page.tiedFromBefore)
            --first;
        const auto from = topmost(line[first]);
        if (!from) return;
        const double y = yOf(*from) - overNumber;
        const double begin = line[first].piece.page.tiedFromBefore ? ends.start : line[first].middle() + 0.2;
        drawArc({begin, y}, {std::max(ends.barLine - 0.3, begin + 1), y});
    }

    /// The string nearest to the top that one of its numbers stands on.
    std::optional<int> topmost(const LaidPiece& laid) const {
        std::optional<int> top;
        for (const StaffHead& head : laid.piece.heads)
            if (const TabPlace* place = placeOf(head))
                top = std::min(top.value_or(place->string), place->string);
        return top;
    }

    /// Over the lines, where no number can be in its way.
    void drawLetter(const std::string& letter, double middle, NoteId note) {
        const double half = textWidth(letter) * letterSize / 2;
        const double y = sketch.topOver(middle - half, middle + half, -0.5) - gap - 0.22 * letterSize;
        sketch.add(PlacedText{letter, {middle, y}, letterSize, TextRole::Words, TextAnchor::Centre, note});
    }

    /// From this piece's numbers to the next one's, which may stand on other strings.
    void drawSlideToNext(std::size_t index) {
        const LaidPiece* goal = slideGoal(line, index);
        const std::vector<StaffHead>& heads = line[index].piece.heads;
        if (index + 1 == line.size() && !line[index].piece.page.tiedOn)
            for (const StaffHead& head : heads)
                drawSlideOverEnd(index, head);
        if (!goal) return;
        for (std::size_t voice = 0; voice < heads.size(); ++voice)
            if (heads[voice].phrasing.slidesToNext)
                drawSlideTo(index, heads[voice], slideGoalOf(voice, *goal), *goal);
    }

    /// Towards the end of the line, where the slide goes on in the next.
    void drawSlideOverEnd(std::size_t index, const StaffHead& head) {
        const TabPlace* place = placeOf(head);
        if (!place || !head.slidesBy) return;
        const double left = line[index].middle() + fretReachRight(line[index]);
        drawSlide(left, std::max(ends.barLine - 0.3, left + tabSlideLength), yOf(place->string),
                  *head.slidesBy > 0, head.note, place->string);
    }

    void drawSlideTo(std::size_t index, const StaffHead& first, const StaffHead& next,
                     const LaidPiece& goal) {
        const TabPlace* from = placeOf(first);
        const TabPlace* to = placeOf(next);
        if (!from || !to) return;
        const double left = line[index].middle() + fretReachRight(line[index]);
        const double rightEnd = goal.middle() - fretReachLeft(goal);
        if (rightEnd - left < gap) return;
        if (from->string == to->string)
            drawSlide(left, rightEnd, yOf(from->string), next.midi > first.midi, first.note, from->string);
        else
            sketch.add(PlacedLine{{left, yOf(from->string)},
                                  {rightEnd, yOf(to->string)},
                                  sketch.metrics().usual("stemThickness"),
                                  first.note});
    }

    double fretReachLeft(const LaidPiece& laid) const {
        return fretReach(laid, plan.places, sketch.metrics()).left + laid.shape.headWidth / 2;
    }
    double fretReachRight(const LaidPiece& laid) const {
        if (laid.piece.page.tiedFromBefore) return gap;
        const double reserved = laid.piece.slidesToNext() ? tabSlideLength + gap : 0;
        return fretReach(laid, plan.places, sketch.metrics()).right - laid.shape.headWidth / 2 - reserved;
    }

    /// Of what has a number.
    void drawMarks() {
        const auto isHidden = [&](const LaidPiece& laid) { return !laid.isRest() && !topmost(laid); };
        if (std::none_of(line.begin(), line.end(), isHidden)) return drawMarksOf(line);
        LaidLine shown = line;
        for (LaidPiece& laid : shown)
            if (isHidden(laid)) laid.piece.phrasing = {};
        drawMarksOf(shown);
    }

    void drawMarksOf(const LaidLine& shown) {
        layOutArticulations(shown, MarkSide::Above, sketch);
        layOutOrnaments(shown, bars, sketch);
    }

    /// Last, so that their amounts stand over the letters and arcs.
    void drawBends() {
        for (const std::vector<TabBent>& together : bends)
            if (!together.empty()) drawTabBends(together, sketch);
    }

    void drawArc(const PagePoint& from, const PagePoint& to) {
        const double width = to.x - from.x;
        if (width < 0.5) return;
        const double high = std::clamp(0.25 + width * 0.06, 0.35, 0.8);
        sketch.add(PlacedCurve{{{from,
                                 {from.x + width * 0.25, std::min(from.y, to.y) - high},
                                 {to.x - width * 0.25, std::min(from.y, to.y) - high},
                                 to}}});
    }

    void drawLines() {
        const double thickness = sketch.metrics().usual("staffLineThickness");
        for (int string = 0; string < plan.strings; ++string) {
            std::vector<Gap>& open = gaps[static_cast<std::size_t>(string)];
            std::sort(open.begin(), open.end(), [](const Gap& a, const Gap& b) { return a.left < b.left; });
            double at = 0;
            const auto drawTo = [&](double end) {
                if (end > at)
                    sketch.addLight(PlacedLine{{at, yOf(string)}, {end, yOf(string)}, thickness, {}});
            };
            for (const Gap& one : open) {
                drawTo(one.left);
                at = std::max(at, one.right);
            }
            drawTo(ends.lines);
        }
    }

    const SystemPlan& plan;
    const LaidLine& line;
    const std::vector<PlacedBar>& bars;
    TabEnds ends;
    Sketch& sketch;
    std::vector<NoteBox>& notes;
    std::vector<std::vector<Gap>> gaps;
    /// Of the notes that begin together.
    std::vector<std::vector<TabBent>> bends;
};

} // namespace

void layOutTab(const SystemPlan& plan, const LaidLine& line, const std::vector<PlacedBar>& bars,
               const TabEnds& ends, Sketch& sketch, std::vector<NoteBox>& notes) {
    TabMaker(plan, line, bars, ends, sketch, notes).make();
}

} // namespace earwright
