#include "core/engraving/HandPlace.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace earwright {

namespace {

constexpr int reachBelow = 1;
constexpr int reachAbove = 4;
constexpr double stretched = 1.0;
/// A wide stretch on the first frets, where they lie far apart, is harder than one higher up.
constexpr double stretchedLow = 1.5;
constexpr int wideFrets = 4;
/// Among fretted notes an open string sounds out of place; near the nut it belongs to what falls to hand.
constexpr double openString = 1.2;
constexpr double openStringLow = 0.15;
constexpr int lastOpenPosition = 3;
/// The further up the hand, the more the colour differs, and the string lies away from where it is.
constexpr double openStringByFret = 0.15;
/// What only a finger can do: bends, vibrato, slides.
constexpr double fingerless = 8;
/// A bend near the nut, where the string is stiff.
constexpr double bentLow = 1.0;
constexpr int stiffFrets = 3;
constexpr int widestGrip = 4;
/// For every note of a line: a few of them weigh less than a shift, a bar of them outweighs it, so that a
/// line goes up the neck where it has to and comes back.
constexpr double awayFromMiddle = 0.02;
constexpr int middlePosition = 5;
constexpr double highUp = 0.06;
constexpr int lastEasyPosition = 9;
constexpr double shift = 1.5;
constexpr double shiftByFret = 0.25;
/// Of a shift while the hand is free: after a rest, or over an open string.
constexpr double shiftWhileFree = 0.5;
constexpr double skippedString = 0.3;
/// For each fret more than the hand spans, from one note to the next without a shift.
constexpr double spread = 0.7;
constexpr int spanned = 3;
constexpr double brokenSlur = 8;
constexpr double cutNote = 6;
constexpr double graceOffString = 4;

bool isAllOpen(const HandPlace& hand) {
    return std::all_of(hand.places.begin(), hand.places.end(),
                       [](const TabPlace& place) { return place.fret == 0; });
}

double costOfFinger(const TabPlace& place, int position) {
    if (place.fret == 0)
        return position <= lastOpenPosition ? openStringLow
                                            : openString + openStringByFret * (position - lastOpenPosition);
    const int finger = place.fret - position;
    if (finger >= 0 && finger < reachAbove) return 0;
    return position < wideFrets ? stretchedLow : stretched;
}

/// Grace notes are slurred to their note, so they have to be had on its string.
double costOfGraces(const Note& note, const TabPlace& place, const StringTuning& tuning) {
    const bool fits =
        std::all_of(note.phrasing.graceNotes.begin(), note.phrasing.graceNotes.end(), [&](int midi) {
            const int fret = midi - tuning.openPitch(place.string);
            return fret >= 0 && fret <= tuning.highestFret();
        });
    return fits ? 0 : graceOffString;
}

double costOfPhrasing(const Phrasing& phrasing, const TabPlace& place) {
    const bool needsFinger =
        phrasing.bend || phrasing.vibrato || phrasing.slideIn || phrasing.slideOut || phrasing.slidesToNext;
    if (needsFinger && place.fret == 0) return fingerless;
    return phrasing.bend && place.fret < stiffFrets ? bentLow : 0;
}

double costOfShift(const StruckTogether& from, const HandPlace& before, const StruckTogether& to,
                   const HandPlace& after) {
    const int frets = std::abs(after.position - before.position);
    if (frets == 0) return 0;
    Beats end = from.front().end();
    for (const Note& note : from)
        end = std::max(end, note.end());
    const bool isFree = end < to.front().onset || isAllOpen(before);
    return (shift + shiftByFret * frets) * (isFree ? shiftWhileFree : 1.0);
}

/// One finger reaches down and another up, and a line leaves no time to stretch twice.
double costOfSpread(const HandPlace& before, const HandPlace& after) {
    if (before.position != after.position || before.places.size() != 1 || after.places.size() != 1) return 0;
    const int from = before.places.front().fret;
    const int to = after.places.front().fret;
    return from == 0 || to == 0 ? 0 : spread * std::max(0, std::abs(to - from) - spanned);
}

bool isBound(const Note& from, const Note& to) {
    return to.phrasing.slurred || to.phrasing.pickedInSlur || from.phrasing.slidesToNext;
}

/// Frets from the lowest to the highest finger.
int gripOf(const HandPlace& hand) {
    int lowest = 1000;
    int highest = 0;
    for (const TabPlace& place : hand.places) {
        if (place.fret == 0) continue;
        lowest = std::min(lowest, place.fret);
        highest = std::max(highest, place.fret);
    }
    return std::max(0, highest - lowest);
}

} // namespace

bool isInReach(const HandPlace& hand) {
    for (std::size_t i = 0; i < hand.places.size(); ++i) {
        const int finger = hand.places[i].fret - hand.position;
        if (hand.places[i].fret != 0 && (finger < -reachBelow || finger > reachAbove)) return false;
        for (std::size_t other = 0; other < i; ++other)
            if (hand.places[other].string == hand.places[i].string) return false;
    }
    return gripOf(hand) <= widestGrip;
}

double costOfPlace(const StruckTogether& event, const HandPlace& hand, const StringTuning& tuning) {
    double cost = awayFromMiddle * std::abs(hand.position - middlePosition) +
                  highUp * std::max(0, hand.position - lastEasyPosition);
    for (std::size_t i = 0; i < event.size(); ++i)
        cost += costOfFinger(hand.places[i], hand.position) + costOfGraces(event[i], hand.places[i], tuning) +
                costOfPhrasing(event[i].phrasing, hand.places[i]);
    return cost;
}

double costOfMove(const StruckTogether& from, const HandPlace& before, const StruckTogether& to,
                  const HandPlace& after) {
    double cost = costOfShift(from, before, to, after) + costOfSpread(before, after);
    int nearest = static_cast<int>(before.places.size() + after.places.size()) * 8;
    for (std::size_t i = 0; i < from.size(); ++i)
        for (std::size_t k = 0; k < to.size(); ++k) {
            const int strings = std::abs(after.places[k].string - before.places[i].string);
            nearest = std::min(nearest, strings);
            const bool isSame = from[i].pitch.midi == to[k].pitch.midi;
            if (strings == 0 && !isSame && soundsInto(from[i], to[k])) cost += cutNote;
            // In double stops lower goes with lower and higher with higher.
            const bool isSameVoice = std::min(i, to.size() - 1) == k;
            if (isSameVoice && strings != 0 && isBound(from[i], to[k])) cost += brokenSlur;
        }
    return cost + skippedString * std::max(0, nearest - 1);
}

bool soundsInto(const Note& note, const Note& next) {
    return note.end() > next.onset || note.phrasing.letRing;
}

double costOfCutting(const TabPlace& held, const HandPlace& next) {
    const bool isCut = std::any_of(next.places.begin(), next.places.end(), [&](const TabPlace& place) {
        return place.string == held.string && place.fret != held.fret;
    });
    return isCut ? cutNote : 0;
}

} // namespace earwright
