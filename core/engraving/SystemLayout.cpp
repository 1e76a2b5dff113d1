#include "core/engraving/SystemLayout.h"

#include "core/engraving/BarLines.h"
#include "core/engraving/BeamLayout.h"
#include "core/engraving/CurveLayout.h"
#include "core/engraving/Extent.h"
#include "core/engraving/LineMoments.h"
#include "core/engraving/MarkLayout.h"
#include "core/engraving/OverStaff.h"
#include "core/engraving/RhythmRow.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SlideLayout.h"
#include "core/engraving/StaffFrame.h"
#include "core/engraving/StemLayout.h"
#include "core/engraving/SystemColumns.h"
#include "core/engraving/TabLayout.h"
#include "core/engraving/TextWidth.h"
#include "core/engraving/TupletLayout.h"
#include "core/engraving/UnderStaff.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double degreeGap = 0.5;
constexpr double degreeLine = 2.0;
/// Height of a capital, in ems.
constexpr double capital = 0.72;
constexpr double barNumberSize = 1.5;
/// From what hangs under the staff to the first line of the tablature.
constexpr double overTab = 2.2;
/// From there to what stands over that line.
constexpr double clearOfTab = 0.7;
/// What comes up to a bar line leaves room for as much of it.
constexpr double besideBarLine = 0.2;

class SystemMaker {
public:
    SystemMaker(const SystemPlan& toLayOut, const FontMetrics& metrics)
        : plan(toLayOut), font(metrics), sketch(metrics), content(systemColumns(plan, font)) {}

    EngravedSystem make() {
        start = staffStartWidth(plan, font);
        spread();
        gatherSigns();
        if (plan.style.staff) drawStaffLines(staffRight, sketch);
        drawPieces();
        layOutBeams(upper(), sketch);
        layOutSingleStems(upper(), sketch);
        layOutGraceStems(upper(), sketch);
        layOutSlides(upper(), slideStops(), musicEnd() - 0.5, sketch);
        layOutArticulations(upper(), MarkSide::Head, sketch);
        layOutTuplets(upper(), sketch);
        layOutTies(upper(), musicEnd() - 0.3, sketch);
        if (plan.style.staff) layOutSlurs(line(), plan.slurred, start - 0.5, musicEnd() - 0.3, sketch);
        layOutOrnaments(upper(), made.bars, sketch);
        if (plan.strings == 0) layOutBendAmounts(line(), right, sketch);
        const LineMoments moments(made.moments);
        // Near its bar line: what is said of the music stands over it.
        drawBarNumber();
        layOutChords(content.chords, places, sketch);
        layOutEndings(plan, made.bars, sketch);
        layOutWordsAbove(plan, moments, right, sketch);
        if (plan.strings == 0) layOutLetRing(line(), right - 0.5, false, sketch);
        layOutDynamics(plan, moments, start - 0.5, right - 0.3, sketch);
        layOutWordsBelow(plan, moments, sketch);
        drawDegrees();
        drawTab();
        drawBars();
        made.shapes = std::move(sketch.shapes);
        made.extent = extentOf(made.shapes, font);
        return std::move(made);
    }

private:
    LaidLine& line() { return content.pieces; }
    /// What stands over the tablature: the line on its staff, or its rhythm.
    LaidLine& upper() { return plan.style.staff ? content.pieces : content.rhythm; }
    double xOf(std::size_t column) const { return places[column]; }

    void spread() {
        const double courtesy = courtesyWidth(plan, font);
        places = plan.quarterSpaces ? spreadWith(*plan.quarterSpaces, content.columns)
                                    : spreadOver(plan.width - start - courtesy, content.columns);
        for (double& place : places)
            place += start;
        right = places.back();
        staffRight = right + courtesy;
        for (std::size_t i = 0; i < line().size(); ++i)
            line()[i].x = upper()[i].x = xOf(content.pieceColumns[i]);
        placeMoments();
        double left = start;
        for (std::size_t i = 0; i < content.barLines.size(); ++i) {
            made.bars.push_back({plan.bars[i].number, left, xOf(content.barLines[i])});
            left = made.bars.back().right;
        }
    }

    /// Where what goes on in the next line has to end: before the dots of a repeat.
    double musicEnd() const {
        const double reach = reachOf(barLineBehind(plan, plan.bars.size() - 1), font).left;
        return right - std::max(0.0, reach - besideBarLine);
    }

    /// Where a slide has to end before a bar line, as signs stand there that it would run through.
    std::vector<double> slideStops() const {
        std::vector<double> stops;
        for (std::size_t i = 0; i < content.barLines.size(); ++i) {
            const BarLineSign sign = barLineBehind(plan, i);
            const bool isRepeat = sign == BarLineSign::RepeatEnd || sign == BarLineSign::RepeatStart ||
                                  sign == BarLineSign::RepeatBoth;
            const std::size_t behind = content.barLines[i] + 1;
            const bool changes = std::any_of(content.changes.begin(), content.changes.end(),
                                             [&](const auto& change) { return change.first == behind; });
            if (isRepeat || changes)
                stops.push_back(xOf(content.barLines[i]) - reachOf(sign, font).left - besideBarLine);
        }
        return stops;
    }

    /// What begins behind a bar line counts, not the bar line.
    void placeMoments() {
        for (std::size_t i = 0; i < content.columns.size(); ++i) {
            const Beats at = content.columns[i].at;
            if (made.moments.empty() || made.moments.back().at < at)
                made.moments.push_back({at, places[i]});
            else
                made.moments.back().x = places[i];
        }
    }

    /// Clef, signatures, changes and what is announced stand on the staff, or else on the tablature.
    void gatherSigns() {
        PlacedShapes signs = staffStart(plan, font);
        signs.append(courtesyShapes(plan, right, font), {0, 0});
        for (const auto& [column, shapes] : content.changes)
            signs.append(shapes.shapes, {xOf(column), 0});
        if (plan.style.staff)
            sketch.add(signs, {0, 0});
        else
            tab.add(signs, {0, tabHeight(plan.strings) / 2 - staffHeight / 2});
    }

    void drawPieces() {
        for (const LaidPiece& laid : upper()) {
            if (laid.isRest() && laid.piece.page.value.denominator == 0) {
                drawBarRest(laid.bar);
                continue;
            }
            sketch.add(laid.shape.shapes, {laid.x, 0});
            if (laid.isRest() && !plan.style.staff)
                drawRestLine(laid.x, laid.x + laid.shape.headWidth, laid.piece.page.value.denominator,
                             sketch);
            for (const NoteBox& box : laid.shape.notes)
                made.notes.push_back({box.note, box.box.moved({laid.x, 0})});
        }
    }

    void drawBarRest(std::size_t bar) {
        const PlacedBar& place = made.bars[bar];
        if (showsSlashes(plan, plan.bars[bar])) return drawSlashes(place, slashesOf(plan.bars[bar]));
        const double middle = (place.left + place.right) / 2;
        const double half = font.width(Smufl::RestWhole) / 2;
        sketch.add(PlacedGlyph{Smufl::RestWhole, {middle - half, 1}, 1, {}});
        if (!plan.style.staff) drawRestLine(middle - half, middle + half, 1, sketch);
    }

    void drawSlashes(const PlacedBar& place, int count) {
        const double width = font.width(Smufl::NoteheadSlash);
        const double room = (place.right - place.left) / count;
        for (int i = 0; i < count; ++i)
            sketch.add(
                PlacedGlyph{Smufl::NoteheadSlash, {place.left + (i + 0.5) * room - width / 2, 2}, 1, {}});
    }

    void drawDegrees() {
        if (!plan.style.degrees) return;
        double top = staffHeight;
        for (const LaidPiece& laid : line())
            top = std::max(top, sketch.bottomUnder(laid.x - 0.5, laid.x + laid.shape.headWidth + 0.5, 0));
        const double first = top + degreeGap + capital * degreeSize;
        for (const LaidPiece& laid : line()) {
            if (laid.piece.page.tiedFromBefore) continue;
            double baseline = first;
            for (std::size_t i = laid.piece.heads.size(); i-- > 0; baseline += degreeLine)
                drawDegree(laid, laid.piece.heads[i], baseline);
        }
    }

    void drawDegree(const LaidPiece& laid, const StaffHead& head, double baseline) {
        SignedText text = signedText(head.degree, degreeSize, TextRole::Degree, font);
        for (PlacedText& word : text.shapes.texts)
            word.note = head.note;
        for (PlacedGlyph& sign : text.shapes.glyphs)
            sign.note = head.note;
        sketch.add(text.shapes, {laid.middle() - text.width / 2, baseline});
    }

    void drawBars() {
        if (const auto place = openingRepeatPlace(plan, font)) drawOnStaves(BarLineSign::RepeatStart, *place);
        for (std::size_t i = 0; i < made.bars.size(); ++i)
            drawOnStaves(barLineBehind(plan, i), made.bars[i].right);
    }

    void drawOnStaves(BarLineSign sign, double place) {
        if (plan.style.staff) drawBarLine(sign, place, 0, staffHeight, 1, sketch);
        if (plan.strings > 0) drawBarLine(sign, place, tabTop(), tabBottom(), tabLineGap, sketch);
    }

    double tabTop() {
        if (!tabTopLine)
            tabTopLine = sketch.bottomUnder(0, right, staffHeight) +
                         std::max(overTab, clearOfTab - extentOf(tab.shapes, font).top);
        return *tabTopLine;
    }
    double tabBottom() { return tabTop() + tabHeight(plan.strings); }

    /// Staff and tablature are joined at their left end.
    void drawTab() {
        if (plan.strings == 0) return;
        std::vector<NoteBox> numbers;
        layOutTab(plan, line(), made.bars, {start - 0.5, musicEnd(), staffRight}, tab, numbers);
        sketch.shapes.append(tab.shapes, {0, tabTop()});
        for (const NoteBox& number : numbers)
            made.notes.push_back({number.note, number.box.moved({0, tabTop()})});
        const double thickness = font.usual("thinBarlineThickness");
        const double half = font.usual("staffLineThickness") / 2;
        const double top = plan.style.staff ? 0 : tabTop();
        sketch.addLight(
            PlacedLine{{thickness / 2, top - half}, {thickness / 2, tabBottom() + half}, thickness, {}});
    }

    /// Of the line's first whole bar, over its clef or the bar line before it; bar 1 goes without.
    void drawBarNumber() {
        if (!plan.style.barNumbers) return;
        const bool startsPartial = plan.bars.front().isPartial && plan.bars.size() > 1;
        const std::size_t index = startsPartial ? 1 : 0;
        const std::int64_t number = plan.bars[index].number;
        if (number <= 1) return;
        const std::string text = std::to_string(number);
        const double width = textWidth(text) * barNumberSize;
        const double left = startsPartial ? made.bars.front().right - width / 2 : 0;
        const double y = sketch.topOver(left - 0.2, left + width + 0.2, 0) - 0.4;
        sketch.add(PlacedText{text, {left, y}, barNumberSize, TextRole::BarNumber, TextAnchor::Left, {}});
    }

    const SystemPlan& plan;
    const FontMetrics& font;
    Sketch sketch;
    SystemColumns content;
    std::vector<double> places;
    /// Where the music begins, the last bar line, and where the staff ends behind it.
    double start = 0;
    double right = 0;
    double staffRight = 0;
    /// About its own top line.
    Sketch tab{font};
    std::optional<double> tabTopLine;
    EngravedSystem made;
};

} // namespace

EngravedSystem layOutSystem(const SystemPlan& plan, const FontMetrics& font) {
    return SystemMaker(plan, font).make();
}

double comfortableWidth(const SystemPlan& plan, const FontMetrics& font) {
    return staffStartWidth(plan, font) + courtesyWidth(plan, font) +
           spreadWith(tightQuarter, systemColumns(plan, font).columns).back();
}

double quarterSpacesOf(const SystemPlan& plan, const FontMetrics& font) {
    return quarterSpacesFor(plan.width - staffStartWidth(plan, font) - courtesyWidth(plan, font),
                            systemColumns(plan, font).columns);
}

} // namespace earwright
