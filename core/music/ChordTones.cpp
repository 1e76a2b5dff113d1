// Which tones a chord has: Chord::intervals().
#include "core/music/ChordSymbol.h"

#include <algorithm>
#include <set>

namespace earwright {

namespace {

/// Semitones above the root of a degree of the major scale, from 1 to 13.
int majorScaleInterval(int degree) {
    static constexpr int steps[]{0, 2, 4, 5, 7, 9, 11};
    return steps[(degree - 1) % 7] + 12 * ((degree - 1) / 7);
}

bool isAltered(const Chord& chord, int degree) {
    return std::any_of(chord.alterations.begin(), chord.alterations.end(),
                       [&](const Alteration& alteration) { return alteration.degree == degree; });
}

bool hasMinorThird(ChordQuality quality) {
    return quality == ChordQuality::Minor || quality == ChordQuality::MinorMajor ||
           quality == ChordQuality::HalfDiminished || quality == ChordQuality::Diminished;
}

/// What stands in the place of the third: the third, the suspended second or fourth, or nothing.
std::optional<int> third(const Chord& chord) {
    switch (chord.quality) {
    case ChordQuality::Power:
        return std::nullopt;
    case ChordQuality::Suspended2:
        return 2;
    case ChordQuality::Suspended4:
        return 5;
    case ChordQuality::Dominant:
        // An eleventh chord is played without the third it would rub against (common practice).
        if (chord.extension == 11 && !isAltered(chord, 11)) return std::nullopt;
        return 4;
    default:
        return hasMinorThird(chord.quality) ? 3 : 4;
    }
}

int plainFifth(ChordQuality quality) {
    if (quality == ChordQuality::HalfDiminished || quality == ChordQuality::Diminished) return 6;
    return quality == ChordQuality::Augmented ? 8 : 7;
}

int seventh(ChordQuality quality) {
    if (quality == ChordQuality::Diminished) return 9;
    return quality == ChordQuality::Major || quality == ChordQuality::MinorMajor ? 11 : 10;
}

/// The stacked thirds above the fifth that the symbol's number implies and no alteration replaces.
void addExtensions(const Chord& chord, std::set<int>& tones) {
    if (chord.extension == 6) tones.insert(9);
    if (chord.extension >= 7) tones.insert(seventh(chord.quality));
    for (int degree = 9; degree <= chord.extension; degree += 2) {
        // A thirteenth chord with a major third leaves the eleventh out (common practice).
        if (degree == 11 && chord.extension == 13 && !hasMinorThird(chord.quality)) continue;
        if (!isAltered(chord, degree)) tones.insert(majorScaleInterval(degree));
    }
}

} // namespace

std::vector<int> Chord::intervals() const {
    std::set<int> tones{0};
    if (const std::optional<int> interval = third(*this)) tones.insert(*interval);
    if (!isAltered(*this, 5)) tones.insert(plainFifth(quality));
    addExtensions(*this, tones);
    for (const Alteration& alteration : alterations)
        tones.insert(majorScaleInterval(alteration.degree) + alteration.alter);
    for (const int degree : added)
        tones.insert(majorScaleInterval(degree));
    return {tones.begin(), tones.end()};
}

} // namespace earwright
