#include "core/engraving/HandMove.h"

#include <algorithm>
#include <cmath>
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
/// Of a shift while the hand is free: after a short rest, or over an open string; and after a long one.
constexpr double whileFree = 0.5;
constexpr double whileResting = 0.3;
constexpr Seconds shortRest{0.4};
constexpr Seconds longRest{0.49};
/// What is shorter ends a note, and frees no hand.
constexpr Seconds leastRest{0.06};
/// From one note to the next there is hardly time for one, or enough: triplets at 120 quarters a minute.
constexpr double whileHurried = 1.4;
constexpr Seconds hurried{0.13};
constexpr Seconds unhurried{0.16};
/// Behind a long note the eye has found the place before the hand goes there.
constexpr double whileLeisurely = 0.6;
constexpr Seconds leisurely{1.0};
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

/// From one value at one time to another at a later one.
double between(Seconds time, Seconds early, double atEarly, Seconds late, double atLate) {
    const double share = (time - early).value / (late - early).value;
    return std::lerp(atEarly, atLate, std::clamp(share, 0.0, 1.0));
}

double hasteBetween(const StruckTogether& from, const StruckTogether& to, const LineTime& time) {
    const Seconds next = time.at(to.front().onset);
    const Seconds rest = next - time.at(endOf(from));
    if (rest >= leastRest) return between(rest, shortRest, whileFree, longRest, whileResting);
    const Seconds apart = next - time.at(from.front().onset);
    if (apart < unhurried) return between(apart, hurried, whileHurried, unhurried, 1);
    return between(apart, unhurried, 1, leisurely, whileLeisurely);
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

HandMove::HandMove(const StruckTogether& from, const StruckTogether& to, const LineTime& time)
    : haste(hasteBetween(from, to, time)) {
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
