#include "core/engraving/TabLayout.h"

#include "core/engraving/Extent.h"
#include "core/engraving/SlideLayout.h"
#include "core/engraving/TabBend.h"
#include "core/engraving/TextWidth.h"
#include "core/engraving/UnderStaff.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double graceSize = 1.4;
constexpr double capital = 0.72;
/// Between a number and what stands beside it: the cut ends of the line, a slide, a grace note.
constexpr double gap = 0.2;
constexpr double slideLength = 1.3;
constexpr double slideRise = 0.45;
constexpr double letterSize = 1.3;

struct Gap {
    double left = 0;
    double right = 0;
};

/// Frets of the grace notes before a head, on its own string; those below the nut are left out.
std::vector<int> graceFrets(const LaidPiece& laid, const StaffHead& head,
                            const std::map<NoteId, TabPlace>& places) {
    std::vector<int> frets;
    const auto place = places.find(head.note);
    if (place == places.end()) return frets;
    for (const StaffHead& grace : laid.piece.graces)
        if (grace.note == head.note && place->second.fret + grace.midi - head.midi >= 0)
            frets.push_back(place->second.fret + grace.midi - head.midi);
    return frets;
}

double graceWidth(const std::vector<int>& frets) {
    double width = 0;
    for (const int fret : frets)
        width += textWidth(std::to_string(fret)) * graceSize + 2 * gap;
    return width;
}

class TabMaker {
public:
    TabMaker(const SystemPlan& toLayOut, const LaidLine& pieces, const TabEnds& rightEnds, Sketch& onto,
             std::vector<NoteBox>& boxes)
        : plan(toLayOut),
          line(pieces),
          ends(rightEnds),
          sketch(onto),
          notes(boxes),
          gaps(static_cast<std::size_t>(plan.strings)) {}

    void make() {
        drawClef();
        for (std::size_t i = 0; i < line.size(); ++i)
            for (const StaffHead& head : line[i].piece.heads)
                drawHead(line[i], head);
        for (std::size_t i = 1; i < line.size(); ++i)
            drawSlur(i);
        for (std::size_t i = 0; i < line.size(); ++i)
            drawSlideToNext(i);
        drawBends();
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

    void drawHead(const LaidPiece& laid, const StaffHead& head) {
        const TabPlace* place = placeOf(head);
        if (!place || laid.piece.page.tiedFromBefore) return;
        const std::string text = fretText(head, plan.places);
        const double half = textWidth(text) * fretSize / 2;
        const double y = yOf(place->string);
        drawNumber(text, laid.middle(), y, fretSize, head.note, place->string);
        notes.push_back(
            {head.note,
             {laid.middle() - half, y - tabLineGap / 2, laid.middle() + half, y + tabLineGap / 2}});
        double left = laid.middle() - half - gap;
        if (laid.piece.phrasing.slideIn) {
            drawSlide(left - slideLength, left, y, *laid.piece.phrasing.slideIn == SlideFrom::Below,
                      head.note, place->string);
            left -= slideLength + gap;
        }
        if (laid.piece.phrasing.bend && head.note == laid.note())
            bends.push_back({*laid.piece.phrasing.bend, {laid.middle() + half + gap, y}, head.note});
        if (laid.piece.phrasing.slideOut)
            drawSlide(laid.middle() + half + gap, laid.middle() + half + gap + slideLength, y,
                      *laid.piece.phrasing.slideOut == SlideTo::Up, head.note, place->string);
        drawGraces(laid, head, *place, left);
    }

    void drawNumber(const std::string& text, double middle, double y, double size, NoteId note, int string) {
        const double half = textWidth(text) * size / 2;
        sketch.add(PlacedText{
            text, {middle, y + capital * size / 2}, size, TextRole::FretNumber, TextAnchor::Centre, note});
        gaps[static_cast<std::size_t>(string)].push_back({middle - half - gap, middle + half + gap});
    }

    void drawSlide(double left, double rightEnd, double y, bool rises, NoteId note, int string) {
        const double by = rises ? slideRise : -slideRise;
        sketch.add(
            PlacedLine{{left, y + by}, {rightEnd, y - by}, sketch.metrics().usual("stemThickness"), note});
        gaps[static_cast<std::size_t>(string)].push_back({left, rightEnd});
    }

    void drawGraces(const LaidPiece& laid, const StaffHead& head, const TabPlace& place, double from) {
        const std::vector<int> frets = graceFrets(laid, head, plan.places);
        double x = from - graceWidth(frets);
        const double y = yOf(place.string);
        if (!frets.empty()) drawArc({x + gap + graceSize * 0.25, y - 0.75}, {laid.middle(), y - 0.85});
        for (const int fret : frets) {
            const double width = textWidth(std::to_string(fret)) * graceSize;
            drawNumber(std::to_string(fret), x + gap + width / 2, y, graceSize, head.note, place.string);
            x += width + 2 * gap;
        }
    }

    /// From the number of the event before to this one.
    void drawSlur(std::size_t index) {
        const LaidPiece& laid = line[index];
        if (laid.isRest() || laid.piece.page.tiedFromBefore || !laid.piece.phrasing.slurred) return;
        std::size_t before = index - 1;
        while (before > 0 && line[before].piece.page.tiedFromBefore)
            --before;
        if (line[before].isRest()) return;
        const TabPlace* from = placeOf(line[before].piece.heads.front());
        const TabPlace* to = placeOf(laid.piece.heads.front());
        if (!from || !to) return;
        const double y = yOf(std::min(from->string, to->string)) - 0.85;
        const double end = slurEnd(laid);
        const double begin = line[before].middle() + 0.2;
        drawArc({begin, y}, {end, y});
        if (laid.piece.phrasing.slurBy)
            drawLetter(*laid.piece.phrasing.slurBy == SlurBy::HammerOn ? "H" : "P", (begin + end) / 2,
                       laid.note());
    }

    /// At the number, or at the first of its grace notes, which have an arc of their own.
    double slurEnd(const LaidPiece& laid) const {
        const StaffHead& head = laid.piece.heads.front();
        const std::vector<int> graces = graceFrets(laid, head, plan.places);
        if (graces.empty()) return laid.middle() - 0.2;
        const double half = textWidth(fretText(head, plan.places)) * fretSize / 2;
        const double slide = laid.piece.phrasing.slideIn ? slideLength + gap : 0;
        return laid.middle() - half - gap - slide - graceWidth(graces) + gap;
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
        if (!goal) return;
        const std::vector<StaffHead>& heads = line[index].piece.heads;
        for (std::size_t voice = 0; voice < heads.size(); ++voice)
            if (heads[voice].slidesToNext) drawSlideTo(index, heads[voice], slideGoalOf(voice, *goal), *goal);
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
        return fretReach(laid, plan.places).left + laid.shape.headWidth / 2;
    }
    double fretReachRight(const LaidPiece& laid) const {
        if (laid.piece.page.tiedFromBefore) return gap;
        const double reserved = laid.piece.slidesToNext() ? slideLength + gap : 0;
        return fretReach(laid, plan.places).right - laid.shape.headWidth / 2 - reserved;
    }

    /// Last, so that their amounts stand over the letters and arcs.
    void drawBends() {
        for (const TabBent& bent : bends)
            drawTabBend(bent.bend, bent.from, bent.note, sketch);
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

    struct TabBent {
        Bend bend;
        PagePoint from;
        NoteId note;
    };

    const SystemPlan& plan;
    const LaidLine& line;
    TabEnds ends;
    Sketch& sketch;
    std::vector<NoteBox>& notes;
    std::vector<std::vector<Gap>> gaps;
    std::vector<TabBent> bends;
};

} // namespace

std::string fretText(const StaffHead& head, const std::map<NoteId, TabPlace>& places) {
    const auto place = places.find(head.note);
    if (place == places.end()) return {};
    const std::string fret = std::to_string(place->second.fret);
    return head.ghosted ? "(" + fret + ")" : fret;
}

FretReach fretReach(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places) {
    FretReach reach;
    if (laid.piece.page.tiedFromBefore) return reach;
    const double middle = laid.shape.headWidth / 2;
    for (const StaffHead& head : laid.piece.heads) {
        const double half = textWidth(fretText(head, places)) * fretSize / 2;
        if (half == 0) continue;
        double left = half + gap + graceWidth(graceFrets(laid, head, places));
        double right = half + gap;
        if (laid.piece.phrasing.slideIn) left += slideLength + gap;
        if (laid.piece.phrasing.slideOut) right += slideLength + gap;
        if (laid.piece.phrasing.bend) right += bendWidth(*laid.piece.phrasing.bend) + gap;
        if (laid.piece.slidesToNext()) right += slideLength + gap;
        reach.left = std::max(reach.left, left - middle);
        reach.right = std::max(reach.right, right + middle);
    }
    return reach;
}

void layOutTab(const SystemPlan& plan, const LaidLine& line, const TabEnds& ends, Sketch& sketch,
               std::vector<NoteBox>& notes) {
    TabMaker(plan, line, ends, sketch, notes).make();
}

} // namespace earwright
