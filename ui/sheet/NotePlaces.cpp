#include "ui/sheet/NotePlaces.h"

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int leastSpan = 14; // a line of few pitches is not blown up beyond about an octave
constexpr double topShare = 0.20;
constexpr double bottomShare = 0.64;

} // namespace

NotePlaces::NotePlaces(const Study& study) : lowest(60), highest(60 + leastSpan) {
    if (study.notes.empty()) return;
    const auto byPitch = [](const Note& a, const Note& b) { return a.pitch.midi < b.pitch.midi; };
    const auto [low, high] = std::minmax_element(study.notes.begin(), study.notes.end(), byPitch);
    const int missing = std::max(leastSpan - (high->pitch.midi - low->pitch.midi), 0);
    lowest = low->pitch.midi - missing / 2;
    highest = high->pitch.midi + missing - missing / 2;
}

double NotePlaces::y(const QRectF& box, int midi) const {
    const double share = static_cast<double>(midi - lowest) / (highest - lowest);
    return box.top() + box.height() * (bottomShare - (bottomShare - topShare) * share);
}

} // namespace earwright::ui
