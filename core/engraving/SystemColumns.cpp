#include "core/engraving/SystemColumns.h"

#include "core/engraving/BarLines.h"
#include "core/engraving/FretReach.h"
#include "core/engraving/RhythmRow.h"
#include "core/engraving/SlideLayout.h"
#include "core/engraving/StaffFrame.h"
#include "core/engraving/UnderStaff.h"

#include <algorithm>
#include <set>

namespace earwright {

namespace {

/// From a bar line to the head behind it.
constexpr double behindBarLine = 1.5;
/// From a bar line to a change of key or meter.
constexpr double beforeChange = 0.7;
/// From its end to the head behind it.
constexpr double behindChange = 1.2;
/// And, beyond the usual gap, to the accidental before it.
constexpr double clearOfChange = 0.4;
constexpr double leastRestBar = 6;
/// A tie needs so much between two heads to be seen.
constexpr double leastTie = 1.3;
/// Before a bar line.
constexpr double beforeBarLine = 0.25;
/// A symbol may come so much nearer to the line's end than to another symbol.
constexpr double chordsToEnd = 1.1;
/// A slash and the room to the next.
constexpr double slashRoom = 2.9;
/// What a line's first note leaves for the end of a tie that comes from the line before.
constexpr double leastOpenTie = 1.8;

class ColumnMaker {
public:
    ColumnMaker(const SystemPlan& toLayOut, const FontMetrics& metrics) : plan(toLayOut), font(metrics) {}

    SystemColumns make() {
        for (std::size_t bar = 0; bar < plan.bars.size(); ++bar)
            addBar(plan.bars[bar], bar);
        return std::move(made);
    }

private:
    std::set<Beats> momentsOf(const StaffBar& bar) const {
        std::set<Beats> moments{bar.begin};
        for (const StaffPiece& piece : bar.pieces)
            moments.insert(piece.page.begin);
        if (plan.style.chordSymbols)
            for (const auto& [at, symbol] : bar.chords)
                moments.insert(at);
        for (const DynamicMark& mark : plan.dynamics)
            if (bar.begin <= mark.at && mark.at < bar.end) moments.insert(mark.at);
        return moments;
    }

    double quarters(const Beats& length) const { return (length * 4 / plan.beatUnit).toDouble(); }

    void addBar(const StaffBar& bar, std::size_t index) {
        const double change = index > 0 ? addChange(bar, index) : 0;
        const std::set<Beats> moments = momentsOf(bar);
        for (auto at = moments.begin(); at != moments.end(); ++at) {
            const Beats next = std::next(at) == moments.end() ? bar.end : *std::next(at);
            Column column;
            column.at = *at;
            column.quarters = quarters(next - *at);
            if (at == moments.begin() && index > 0)
                column.leastGap = change > 0
                                      ? change + behindChange
                                      : behindBarLine + reachOf(barLineBehind(plan, index - 1), font).right;
            made.columns.push_back(column);
            addPieceAt(*at, bar, index);
            addChordAt(*at, bar);
            addDynamicAt(*at);
        }
        addBarLine(bar, index);
    }

    void addBarLine(const StaffBar& bar, std::size_t index) {
        Column barLine;
        barLine.at = bar.end;
        const BarLineReach sign = reachOf(barLineBehind(plan, index), font);
        const Reach reach{sign.left + beforeBarLine, sign.right};
        barLine.row(ColumnRow::Staff) = reach;
        if (plan.strings > 0) barLine.row(ColumnRow::Frets) = reach;
        // Symbols may hang over into the next bar, but not over the line's end.
        const bool isLast = index + 1 == plan.bars.size();
        if (isLast) barLine.row(ColumnRow::Chords) = Reach{-chordsToEnd, 0};
        if (isLast && !plan.dynamics.empty() && opensHairpin(plan.dynamics.back()))
            barLine.row(ColumnRow::Dynamics) = Reach{0, 0};
        if (isRestBar(bar)) barLine.leastGap = showsSlashes(plan, bar) ? slashesWidth(bar) : leastRestBar;
        made.barLines.push_back(made.columns.size());
        made.columns.push_back(barLine);
    }

    static double slashesWidth(const StaffBar& bar) {
        return slashRoom * static_cast<double>(slashesOf(bar));
    }

    /// Returns how wide it is; 0 where nothing changes.
    double addChange(const StaffBar& bar, std::size_t index) {
        SignatureShapes shapes = signaturesAt(plan, index, font);
        const double width = shapes.width;
        if (width == 0) return 0;
        Column column;
        column.at = bar.begin;
        column.leastGap = beforeChange + reachOf(barLineBehind(plan, index - 1), font).right;
        const Reach reach{0, shapes.width + clearOfChange};
        column.row(ColumnRow::Staff) = reach;
        if (!plan.style.staff) column.row(ColumnRow::Frets) = reach;
        made.changes.emplace_back(made.columns.size(), std::move(shapes));
        made.columns.push_back(column);
        return width;
    }

    void addPieceAt(const Beats& at, const StaffBar& bar, std::size_t index) {
        const auto piece = std::find_if(bar.pieces.begin(), bar.pieces.end(),
                                        [&](const StaffPiece& one) { return one.page.begin == at; });
        if (piece == bar.pieces.end()) return;
        const StaffPiece drawn = plan.style.staff ? *piece : rhythmOf(*piece);
        LaidPiece laid{*piece, pieceShape(drawn, font), 0, index, {}};
        if (!plan.style.staff) made.rhythm.push_back({drawn, laid.shape, 0, index, {}});
        if (piece->page.value.denominator != 0) {
            Reach reach{laid.shape.left, laid.shape.right};
            if (piece->page.tiedOn)
                reach.right = std::max(reach.right, laid.shape.headsRight + leastTie);
            else if (drawn.slidesToNext())
                reach.right = std::max(reach.right, laid.shape.right + leastSlide);
            if (piece->page.tiedFromBefore && made.columns.size() == 1)
                reach.left = std::max(reach.left, leastOpenTie - laid.shape.headsLeft);
            made.columns.back().row(ColumnRow::Staff) = reach;
        }
        if (plan.style.degrees) addDegrees(laid);
        if (plan.strings > 0) addFrets(laid);
        made.pieceColumns.push_back(made.columns.size() - 1);
        made.pieces.push_back(std::move(laid));
    }

    void addDegrees(const LaidPiece& laid) {
        if (laid.piece.page.tiedFromBefore) return;
        double width = 0;
        for (const StaffHead& head : laid.piece.heads)
            width = std::max(width, signedText(head.degree, degreeSize, TextRole::Degree, font).width);
        const double middle = laid.shape.headWidth / 2;
        if (width > 0)
            made.columns.back().row(ColumnRow::Degrees) = Reach{width / 2 - middle, width / 2 + middle};
    }

    void addFrets(const LaidPiece& laid) {
        const FretReach reach = fretReach(laid, plan.places, font);
        if (reach.right > 0) made.columns.back().row(ColumnRow::Frets) = Reach{reach.left, reach.right};
    }

    void addChordAt(const Beats& at, const StaffBar& bar) {
        if (!plan.style.chordSymbols) return;
        for (const auto& [place, symbol] : bar.chords) {
            if (place != at) continue;
            SignedText text = signedText(toString(symbol), chordSize, TextRole::ChordSymbol, font);
            made.columns.back().row(ColumnRow::Chords) = Reach{0, text.width};
            made.chords.push_back({made.columns.size() - 1, std::move(text)});
        }
    }

    void addDynamicAt(const Beats& at) {
        for (const DynamicMark& mark : plan.dynamics) {
            if (mark.at != at) continue;
            const double half = font.width(dynamicGlyph(mark.level)) / 2;
            const double middle = font.width(Smufl::NoteheadBlack) / 2;
            const double behind = opensHairpin(mark) ? hairpinRoom : 0;
            made.columns.back().row(ColumnRow::Dynamics) = Reach{half - middle, half + middle + behind};
        }
    }

    /// Whether a hairpin stands between it and the next dynamic, or the line's end.
    bool opensHairpin(const DynamicMark& mark) const {
        const auto next = std::find_if(plan.dynamics.begin(), plan.dynamics.end(),
                                       [&](const DynamicMark& one) { return one.at > mark.at; });
        return std::any_of(plan.hairpins.begin(), plan.hairpins.end(), [&](const LineHairpin& hairpin) {
            return !hairpin.fromBefore && hairpin.range.begin >= mark.at &&
                   (next == plan.dynamics.end() || hairpin.range.end <= next->at);
        });
    }

    const SystemPlan& plan;
    const FontMetrics& font;
    SystemColumns made;
};

} // namespace

bool isRestBar(const StaffBar& bar) {
    return bar.pieces.size() == 1 && bar.pieces.front().page.value.denominator == 0;
}

bool showsSlashes(const SystemPlan& plan, const StaffBar& bar) {
    return plan.style.slashes && isRestBar(bar) && !bar.chords.empty();
}

int slashesOf(const StaffBar& bar) {
    return std::max(1, bar.meter.beatsPerBar / static_cast<int>(pulseBeats(bar.meter)));
}

SystemColumns systemColumns(const SystemPlan& plan, const FontMetrics& font) {
    return ColumnMaker(plan, font).make();
}

} // namespace earwright
