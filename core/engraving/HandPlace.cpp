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
/// Near the nut frets are wide, and a line that strays there falls among the open strings.
constexpr double lowDown = 0.01;
constexpr int firstEasyPosition = 4;
constexpr double graceOffString = 4;

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
                  highUp * std::max(0, hand.position - lastEasyPosition) +
                  lowDown * std::max(0, firstEasyPosition - hand.position);
    for (std::size_t i = 0; i < event.size(); ++i)
        cost += costOfFinger(hand.places[i], hand.position) + costOfGraces(event[i], hand.places[i], tuning) +
                costOfPhrasing(event[i].phrasing, hand.places[i]);
    return cost;
}

} // namespace earwright
