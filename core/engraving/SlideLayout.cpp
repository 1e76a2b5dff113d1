#include "core/engraving/SlideLayout.h"

#include "core/study/NoteVoices.h"

#include <algorithm>

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

void drawSlideTo(const LaidPiece& laid, const LaidPiece& goal, std::size_t voice, Sketch& sketch) {
    const StaffHead& first = laid.piece.heads[voice];
    const StaffHead& next = slideGoalOf(voice, goal);
    const double rise = next.midi > first.midi ? -leastRise : leastRise;
    const double slant = first.position == next.position ? rise : 0;
    drawStroke({laid.x + laid.shape.right + gap, yOfPosition(first.position) - slant},
               {goal.x - goal.shape.left - gap, yOfPosition(next.position) + slant}, first.note, sketch);
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

void layOutSlides(const LaidLine& line, double right, Sketch& sketch) {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const LaidPiece& laid = line[i];
        if (!slidesOn(laid)) continue;
        const LaidPiece* goal = slideGoal(line, i);
        for (std::size_t voice = 0; goal && voice < laid.piece.heads.size(); ++voice)
            if (laid.piece.heads[voice].phrasing.slidesToNext) drawSlideTo(laid, *goal, voice, sketch);
        if (i + 1 == line.size()) drawOverEnd(laid, right, sketch);
    }
}

} // namespace earwright
