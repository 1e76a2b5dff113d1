#include "core/engraving/SlideLayout.h"

#include "core/study/NoteVoices.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double gap = 0.25;
/// How far the ends of a stroke between two heads of one height are apart.
constexpr double leastRise = 0.3;

bool slidesOn(const LaidPiece& laid) {
    return !laid.isRest() && laid.piece.slidesToNext() && !laid.piece.page.tiedOn;
}

void drawStroke(const PagePoint& from, const PagePoint& to, NoteId note, Sketch& sketch) {
    if (to.x - from.x < gap) return;
    sketch.add(PlacedLine{from, to, sketch.metrics().usual("stemThickness"), note});
}

/// As far as the first of the stops on its way, and no flatter than a slide between heads of one height.
PlacedLine cutShort(PlacedLine stroke, const std::vector<double>& stops) {
    const auto stop = std::upper_bound(stops.begin(), stops.end(), stroke.from.x);
    if (stop == stops.end() || *stop >= stroke.to.x) return stroke;
    const double whole = stroke.to.y - stroke.from.y;
    const double rise = whole * (*stop - stroke.from.x) / (stroke.to.x - stroke.from.x);
    const double lack = std::max(0.0, 2 * leastRise - std::abs(rise)) / 2;
    const double more = whole < 0 ? -lack : lack;
    stroke.to = {*stop, stroke.from.y + rise + more};
    stroke.from.y -= more;
    return stroke;
}

void drawSlideTo(const LaidPiece& laid, const LaidPiece& goal, std::size_t voice,
                 const std::vector<double>& stops, Sketch& sketch) {
    const StaffHead& first = laid.piece.heads[voice];
    const StaffHead& next = slideGoalOf(voice, goal);
    const double rise = next.midi > first.midi ? -leastRise : leastRise;
    const double slant = first.position == next.position ? rise : 0;
    PlacedLine stroke;
    stroke.from = {laid.x + laid.shape.right + gap, yOfPosition(first.position) - slant};
    stroke.to = {goal.x - goal.shape.left - gap, yOfPosition(next.position) + slant};
    stroke = cutShort(stroke, stops);
    drawStroke(stroke.from, stroke.to, first.note, sketch);
}

/// Slanted, as a level stroke would look like one more line of the staff.
void drawOverEnd(const LaidPiece& laid, double right, Sketch& sketch) {
    const double left = laid.x + laid.shape.right + gap;
    for (const StaffHead& head : laid.piece.heads) {
        if (!head.slidesBy) continue;
        const double y = yOfPosition(head.position);
        const double slant = *head.slidesBy > 0 ? leastRise : -leastRise;
        drawStroke({left, y + slant}, {std::max(right, left + leastSlide), y - slant}, head.note, sketch);
    }
}

} // namespace

const StaffHead& slideGoalOf(std::size_t voice, const LaidPiece& goal) {
    return goal.piece.heads[otherVoice(voice, goal.piece.heads.size())];
}

const LaidPiece* slideGoal(const LaidLine& line, std::size_t index) {
    if (!slidesOn(line[index]) || index + 1 >= line.size() || line[index + 1].isRest()) return nullptr;
    return &line[index + 1];
}

void layOutSlides(const LaidLine& line, const std::vector<double>& stops, double right, Sketch& sketch) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const LaidPiece& laid = line[i];
        if (!slidesOn(laid)) continue;
        const LaidPiece* goal = slideGoal(line, i);
        for (std::size_t voice = 0; goal && voice < laid.piece.heads.size(); ++voice)
            if (laid.piece.heads[voice].phrasing.slidesToNext) drawSlideTo(laid, *goal, voice, stops, sketch);
        if (i + 1 == line.size()) drawOverEnd(laid, right, sketch);
    }
}

} // namespace earwright
