#include "core/engraving/HandMove.h"

#include <algorithm>
#include <cstdlib>

namespace earwright {

namespace {

constexpr double shift = 1.5;
constexpr double shiftByFret = 0.25;
/// For each fret of a shift beyond these: the eye has to leave the page, and the finger may miss.
constexpr double farShiftByFret = 0.25;
constexpr int nearShift = 4;
/// No finger stays on its string to lead the hand.
constexpr double unguided = 0.3;
/// Of a shift while the hand is free: after a short rest, or over an open string; and after a rest of a beat
/// or more.
constexpr double whileFree = 0.5;
constexpr double whileResting = 0.3;
/// In a run of quarters of a beat or faster there is hardly time for one.
constexpr double whileHurried = 1.4;
constexpr double skippedString = 0.3;
/// For each fret more than the hand spans, from one note to the next without a shift.
constexpr double spread = 0.7;
constexpr int spanned = 3;
constexpr double brokenSlur = 8;
constexpr double cutNote = 6;

bool isAllOpen(const HandPlace& hand) {
    return std::all_of(hand.places.begin(), hand.places.end(),
                       [](const TabPlace& place) { return place.fret == 0; });
}

Beats endOf(const StruckTogether& event) {
    Beats end = event.front().end();
    for (const Note& note : event)
        end = std::max(end, note.end());
    return end;
}

double hasteBetween(const StruckTogether& from, const StruckTogether& to) {
    const Beats rest = to.front().onset - endOf(from);
    if (rest > Beats(0)) return rest < Beats(1) ? whileFree : whileResting;
    const Beats time = to.front().onset - from.front().onset;
    return time <= Beats(1, 4) ? whileHurried : 1;
}

/// One finger reaches down and another up, and a line leaves no time to stretch twice.
double costOfSpread(const HandPlace& before, const HandPlace& after) {
    if (before.position != after.position || before.places.size() != 1 || after.places.size() != 1) return 0;
    const int from = before.places.front().fret;
    const int to = after.places.front().fret;
    return from == 0 || to == 0 ? 0 : spread * std::max(0, std::abs(to - from) - spanned);
}

bool belongTogether(const Note& from, const Note& to) {
    return to.phrasing.slurred || to.phrasing.pickedInSlur || from.phrasing.slidesToNext;
}

} // namespace

HandMove::HandMove(const StruckTogether& from, const StruckTogether& to) : haste(hasteBetween(from, to)) {
    for (std::size_t i = 0; i < from.size(); ++i)
        for (std::size_t k = 0; k < to.size(); ++k) {
            const bool isSame = from[i].pitch.midi == to[k].pitch.midi;
            const bool sounds = soundsUnder(from[i], to[k]) || from[i].phrasing.letRing;
            // In double stops lower goes with lower and higher with higher.
            const bool isSameVoice = std::min(i, to.size() - 1) == k;
            pairs.push_back({i, k, sounds && !isSame, isSameVoice && belongTogether(from[i], to[k])});
        }
}

double HandMove::costOfShift(const HandPlace& before, const HandPlace& after) const {
    const int frets = std::abs(after.position - before.position);
    if (frets == 0) return 0;
    double cost = shift + shiftByFret * frets + farShiftByFret * std::max(0, frets - nearShift);
    const bool isGuided = std::any_of(pairs.begin(), pairs.end(), [&](const Pair& pair) {
        return before.places[pair.from].string == after.places[pair.to].string;
    });
    if (!isGuided) cost += unguided;
    return cost * (isAllOpen(before) ? std::min(haste, whileFree) : haste);
}

double HandMove::cost(const HandPlace& before, const HandPlace& after) const {
    double cost = costOfShift(before, after) + costOfSpread(before, after);
    int nearest = static_cast<int>(before.places.size() + after.places.size()) * 8;
    for (const Pair& pair : pairs) {
        const int strings = std::abs(after.places[pair.to].string - before.places[pair.from].string);
        nearest = std::min(nearest, strings);
        if (strings == 0 && pair.soundsOn) cost += cutNote;
        if (strings != 0 && pair.isBound) cost += brokenSlur;
    }
    return cost + skippedString * std::max(0, nearest - 1);
}

bool soundsUnder(const Note& held, const Note& next) {
    return held.end() - next.onset >= std::min(next.length, Beats(1)) / 2;
}

double costOfCutting(const TabPlace& held, const HandPlace& next) {
    const bool isCut = std::any_of(next.places.begin(), next.places.end(), [&](const TabPlace& place) {
        return place.string == held.string && place.fret != held.fret;
    });
    return isCut ? cutNote : 0;
}

} // namespace earwright
