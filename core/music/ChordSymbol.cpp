// Reading and printing chord symbols.
#include "core/music/ChordSymbol.h"

#include "core/music/ChordReader.h"
#include "core/music/NoChord.h"

#include <algorithm>

namespace earwright {

namespace {

/// The stem of the printed symbol: what stands between the root and the alterations.
std::string printedStem(const Chord& chord, bool sixNine) {
    const std::string number = chord.extension > 5 ? std::to_string(chord.extension) : "";
    switch (chord.quality) {
    case ChordQuality::Major:
        if (chord.extension <= 6) return sixNine ? "6/9" : number;
        return "maj" + number;
    case ChordQuality::Minor:
        return "m" + (sixNine ? "6/9" : number);
    case ChordQuality::Dominant:
        return number;
    case ChordQuality::MinorMajor:
        return "m(maj" + number + ")";
    case ChordQuality::HalfDiminished:
        return "m" + number + "♭5";
    case ChordQuality::Diminished:
        return "°" + number;
    case ChordQuality::Augmented:
        return "+";
    case ChordQuality::Suspended2:
        return number + "sus2";
    case ChordQuality::Suspended4:
        return number + "sus4";
    case ChordQuality::Power:
        return "5";
    }
    return "";
}

bool takesOneAlterationPlainly(const Chord& chord) {
    return chord.extension >= 7 &&
           (chord.quality == ChordQuality::Dominant || chord.quality == ChordQuality::Major ||
            chord.quality == ChordQuality::Minor);
}

std::string printedAlterations(const Chord& chord) {
    std::string text;
    for (const Alteration& alteration : chord.alterations)
        text += (alteration.alter < 0 ? "♭" : "♯") + std::to_string(alteration.degree);
    const bool plain = chord.alterations.size() == 1 && takesOneAlterationPlainly(chord);
    return plain || text.empty() ? text : "(" + text + ")";
}

std::string printed(const Chord& chord) {
    const auto ninth = std::find(chord.added.begin(), chord.added.end(), 9);
    const bool third = chord.quality == ChordQuality::Major || chord.quality == ChordQuality::Minor;
    const bool sixNine = third && chord.extension == 6 && ninth != chord.added.end();
    std::string text = toString(chord.root) + printedStem(chord, sixNine);
    text += isAltered(chord) ? "alt" : printedAlterations(chord);
    for (auto degree = chord.added.begin(); degree != chord.added.end(); ++degree)
        if (!sixNine || degree != ninth) text += "(add" + std::to_string(*degree) + ")";
    if (chord.bass) text += "/" + toString(*chord.bass);
    return text;
}

} // namespace

bool isAltered(const Chord& chord) {
    return chord.quality == ChordQuality::Dominant && chord.extension == 7 &&
           chord.alterations == alteredDominant();
}

ChordSymbol parseChordSymbol(std::string_view text) {
    return {std::string(text), ChordReader(text).read()};
}

std::string toString(const ChordSymbol& symbol) {
    if (isNoChord(symbol)) return "N.C.";
    return symbol.chord ? printed(*symbol.chord) : symbol.text;
}

} // namespace earwright
