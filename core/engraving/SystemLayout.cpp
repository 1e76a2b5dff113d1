#include "core/engraving/SystemLayout.h"

#include "core/engraving/BeamLayout.h"
#include "core/engraving/CurveLayout.h"
#include "core/engraving/Extent.h"
#include "core/engraving/LineWords.h"
#include "core/engraving/MarkLayout.h"
#include "core/engraving/Sketch.h"
#include "core/engraving/SlideLayout.h"
#include "core/engraving/StaffFrame.h"
#include "core/engraving/StemLayout.h"
#include "core/engraving/SystemColumns.h"
#include "core/engraving/TabLayout.h"
#include "core/engraving/TupletLayout.h"

#include <algorithm>

namespace earwright {

namespace {

constexpr double overStaff = 1.0;
constexpr double chordGap = 0.7;
constexpr double degreeGap = 0.5;
constexpr double degreeLine = 2.0;
/// Height of a capital, in ems.
constexpr double capital = 0.72;
constexpr double barNumberSize = 1.5;
/// From what hangs under the staff to the first line of the tablature.
constexpr double overTab = 2.2;
/// From there to what stands over that line.
constexpr double clearOfTab = 0.7;

class SystemMaker {
public:
    SystemMaker(const SystemPlan& toLayOut, const FontMetrics& metrics)
        : plan(toLayOut), font(metrics), sketch(metrics), content(systemColumns(plan, font)) {}

    EngravedSystem make() {
        const double start = drawStaffStart(plan, sketch);
        spread(start);
        drawStaffLines(right, sketch);
        drawChanges();
        drawPieces();
        layOutBeams(line(), sketch);
        layOutSingleStems(line(), sketch);
        layOutGraceStems(line(), sketch);
        layOutSlides(line(), right - 0.5, sketch);
        layOutArticulations(line(), sketch);
        layOutTuplets(line(), sketch);
        layOutTies(line(), right - 0.3, sketch);
        layOutSlurs(line(), plan.slurred, start - 0.5, right - 0.3, sketch);
        layOutOrnaments(line(), right - 0.5, sketch);
        if (plan.strings == 0) layOutBendAmounts(line(), sketch);
        drawChords();
        drawLineWords();
        drawDegrees();
        drawTab();
        drawBars();
        drawBarNumber();
        made.shapes = std::move(sketch.shapes);
        made.extent = extentOf(made.shapes, font);
        return std::move(made);
    }

private:
    LaidLine& line() { return content.pieces; }
    double xOf(std::size_t column) const { return places[column]; }

    void spread(double start) {
        places = plan.quarterSpaces ? spreadWith(*plan.quarterSpaces, content.columns)
                                    : spreadOver(plan.width - start, content.columns);
        for (double& place : places)
            place += start;
        right = places.back();
        for (std::size_t i = 0; i < line().size(); ++i)
            line()[i].x = xOf(content.pieceColumns[i]);
        placeMoments();
        double left = start;
        for (std::size_t i = 0; i < content.barLines.size(); ++i) {
            made.bars.push_back({plan.bars[i].number, left, xOf(content.barLines[i])});
            left = made.bars.back().right;
        }
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

    void drawChanges() {
        for (const auto& [column, shapes] : content.changes)
            sketch.add(shapes.shapes, {xOf(column), 0});
    }

    void drawPieces() {
        for (const LaidPiece& laid : line()) {
            if (laid.isRest() && laid.piece.page.value.denominator == 0) {
                drawBarRest(laid.bar);
                continue;
            }
            sketch.add(laid.shape.shapes, {laid.x, 0});
            for (const NoteBox& box : laid.shape.notes)
                made.notes.push_back({box.note, box.box.moved({laid.x, 0})});
        }
    }

    void drawBarRest(std::size_t bar) {
        const PlacedBar& place = made.bars[bar];
        const double middle = (place.left + place.right) / 2;
        sketch.add(PlacedGlyph{Smufl::RestWhole, {middle - font.width(Smufl::RestWhole) / 2, 1}, 1, {}});
    }

    /// All symbols of a line stand on one base line.
    void drawChords() {
        double baseline = -overStaff;
        for (const ColumnChord& chord : content.chords) {
            const double x = xOf(chord.column);
            baseline = std::min(baseline, sketch.topOver(x - 0.3, x + chord.text.width + 0.3, 0) - chordGap);
        }
        for (const ColumnChord& chord : content.chords)
            sketch.add(chord.text.shapes, {xOf(chord.column), baseline});
    }

    /// Where a place of the music stands on the line.
    double xAt(const Beats& at) const {
        const auto& moments = made.moments;
        const auto next = std::find_if(moments.begin(), moments.end(),
                                       [&](const PlacedMoment& moment) { return moment.at >= at; });
        if (next == moments.end()) return right;
        if (next == moments.begin() || next->at == at) return next->x;
        const auto before = std::prev(next);
        const double share = (at - before->at).toDouble() / (next->at - before->at).toDouble();
        return before->x + share * (next->x - before->x);
    }

    /// Over everything else; the tempo over the swing where both begin in one place.
    void drawLineWords() {
        const auto draw = [&](const Beats& at, const SignedText& words) {
            const double x = std::max(0.0, std::min(xAt(at), std::max(right, plan.width) - words.width));
            const double bottom = extentOf(words.shapes, font).bottom;
            const double y = sketch.topOver(x - 0.5, x + words.width + 0.5, -overStaff) - chordGap - bottom;
            sketch.add(words.shapes, {x, y});
        };
        for (const SwingChange& change : plan.swings)
            draw(change.at, swingWords(change.swing, font));
        for (const TempoMark& tempo : plan.tempos)
            draw(tempo.at, tempoWords(tempo, font));
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
        std::vector<double> barLines;
        for (const PlacedBar& bar : made.bars)
            barLines.push_back(bar.right);
        drawBarLines(barLines, 0, staffHeight, plan.isLast, sketch);
        if (plan.strings > 0) drawBarLines(barLines, tabTop(), tabBottom(), plan.isLast, sketch);
    }

    double tabTop() {
        if (!tabTopLine)
            tabTopLine = sketch.bottomUnder(0, right, staffHeight) +
                         std::max(overTab, clearOfTab - extentOf(tab.shapes, font).top);
        return *tabTopLine;
    }
    double tabBottom() { return tabTop() + (plan.strings - 1) * tabLineGap; }

    /// Staff and tablature are joined at their left end.
    void drawTab() {
        if (plan.strings == 0) return;
        std::vector<NoteBox> numbers;
        layOutTab(plan, line(), right, tab, numbers);
        sketch.shapes.append(tab.shapes, {0, tabTop()});
        for (const NoteBox& number : numbers)
            made.notes.push_back({number.note, number.box.moved({0, tabTop()})});
        const double thickness = font.usual("thinBarlineThickness");
        const double half = font.usual("staffLineThickness") / 2;
        sketch.addLight(
            PlacedLine{{thickness / 2, -half}, {thickness / 2, tabBottom() + half}, thickness, {}});
    }

    void drawBarNumber() {
        const auto first = std::find_if(plan.bars.begin(), plan.bars.end(),
                                        [](const StaffBar& bar) { return bar.number >= 1; });
        if (!plan.style.barNumbers || first != plan.bars.begin() || first->number == 1) return;
        const double y = sketch.topOver(0, 2, 0) - 0.4;
        sketch.add(PlacedText{
            std::to_string(first->number), {0, y}, barNumberSize, TextRole::BarNumber, TextAnchor::Left, {}});
    }

    const SystemPlan& plan;
    const FontMetrics& font;
    Sketch sketch;
    SystemColumns content;
    std::vector<double> places;
    double right = 0;
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
    return staffStartWidth(plan, font) + spreadWith(tightQuarter, systemColumns(plan, font).columns).back();
}

double quarterSpacesOf(const SystemPlan& plan, const FontMetrics& font) {
    return quarterSpacesFor(plan.width - staffStartWidth(plan, font), systemColumns(plan, font).columns);
}

} // namespace earwright
