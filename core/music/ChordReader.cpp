#include "core/music/ChordReader.h"

#include <algorithm>

namespace earwright {

namespace {

bool alters(const Chord& chord, const Alteration& alteration) {
    return std::find(chord.alterations.begin(), chord.alterations.end(), alteration) !=
           chord.alterations.end();
}

bool comesFirst(const Alteration& a, const Alteration& b) {
    return a.degree != b.degree ? a.degree < b.degree : a.alter < b.alter;
}

} // namespace

std::vector<Alteration> alteredDominant() {
    return {{5, -1}, {5, 1}, {9, -1}, {9, 1}};
}

std::optional<Chord> ChordReader::read() {
    const std::optional<PitchName> root = takeName();
    if (!root) return std::nullopt;
    chord.root = *root;
    const Stem stem = takeStem();
    if (!takeExtension(stem) || !applyStem(stem)) return std::nullopt;
    while (!rest.empty() && rest.front() != '/')
        if (!takeModifier()) return std::nullopt;
    if (openParentheses != 0 || !takeBass()) return std::nullopt;
    settle();
    return isSound() ? std::optional(chord) : std::nullopt;
}

bool ChordReader::take(std::string_view word) {
    if (!rest.starts_with(word)) return false;
    rest.remove_prefix(word.size());
    return true;
}

bool ChordReader::takeAny(std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return take(word); });
}

std::optional<PitchName> ChordReader::takeName() {
    static constexpr std::string_view letters = "CDEFGAB";
    if (rest.empty()) return std::nullopt;
    const std::size_t letter = letters.find(rest.front());
    if (letter == std::string_view::npos) return std::nullopt;
    rest.remove_prefix(1);
    PitchName name{static_cast<Step>(letter), 0};
    while (name.alter > -2 && name.alter <= 0 && takeAny({"b", "♭"}))
        --name.alter;
    while (name.alter < 2 && name.alter >= 0 && takeAny({"#", "♯"}))
        ++name.alter;
    return name;
}

std::optional<int> ChordReader::takeDegree(std::initializer_list<int> degrees) {
    for (const int degree : degrees)
        if (take(std::to_string(degree))) return degree;
    return std::nullopt;
}

bool ChordReader::takeMajorWord() {
    // Cmadd9 is a minor chord with a ninth.
    if (rest.starts_with("madd")) return false;
    return takeAny({"major", "Major", "maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "^"});
}

ChordReader::Stem ChordReader::takeStem() {
    if (takeAny({"minor", "min", "Min", "mi", "Mi", "MI", "-", "−"}))
        return takeMajorSeventh() ? Stem::MinorMajor : Stem::Minor;
    if (takeMajorWord()) return Stem::Major;
    if (takeAny({"Δ", "∆", "△"})) return Stem::Triangle;
    if (take("m")) return takeMajorSeventh() ? Stem::MinorMajor : Stem::Minor;
    if (takeAny({"dim", "°", "º", "o"})) return Stem::Diminished;
    if (takeAny({"ø", "Ø"})) return Stem::HalfDiminished;
    if (takeAny({"aug", "+"})) return takeMajorSeventh() ? Stem::AugmentedMajor : Stem::Augmented;
    return take("dom") ? Stem::Dominant : Stem::None;
}

bool ChordReader::takeMajorSeventh() {
    const std::string_view before = rest;
    const bool parenthesis = take("(");
    const bool triangle = takeAny({"Δ", "∆", "△"});
    if (triangle || takeMajorWord()) {
        const std::optional<int> degree = takeDegree({13, 11, 9, 7});
        number = degree.value_or(7);
        if ((degree || triangle) && (!parenthesis || take(")"))) return true;
    }
    rest = before;
    number = 0;
    return false;
}

bool ChordReader::takeExtension(Stem stem) {
    if (stem == Stem::MinorMajor || stem == Stem::AugmentedMajor) return true;
    if (takeAny({"6/9", "69"})) {
        number = 6;
        chord.added.push_back(9);
        return true;
    }
    number = takeDegree({13, 11, 9, 7, 6, 5}).value_or(0);
    return number != 5 || stem == Stem::None || stem == Stem::Augmented;
}

bool ChordReader::applyStem(Stem stem) {
    const bool sixth = number == 6;
    chord.extension = std::max(number, 5);
    switch (stem) {
    case Stem::None:
        if (number == 5) chord.quality = ChordQuality::Power;
        if (number >= 7) chord.quality = ChordQuality::Dominant;
        return true;
    case Stem::Dominant:
        chord.quality = ChordQuality::Dominant;
        if (number == 0) chord.extension = 7;
        return !sixth;
    case Stem::Triangle:
        if (number == 0) chord.extension = 7;
        return true;
    case Stem::Major:
        return true;
    case Stem::Minor:
        chord.quality = ChordQuality::Minor;
        return true;
    case Stem::MinorMajor:
        chord.quality = ChordQuality::MinorMajor;
        return true;
    case Stem::Diminished:
        chord.quality = ChordQuality::Diminished;
        return number == 0 || number == 7;
    case Stem::HalfDiminished:
        chord.quality = ChordQuality::HalfDiminished;
        if (number == 0) chord.extension = 7;
        return !sixth;
    case Stem::Augmented:
        // C+7 is C7♯5; with larger numbers the plus is read either way, so such symbols are left as typed.
        chord.quality = number >= 7 ? ChordQuality::Dominant : ChordQuality::Augmented;
        return !sixth && number < 11 && (number < 7 || addAlteration(5, 1));
    case Stem::AugmentedMajor:
        return addAlteration(5, 1);
    }
    return false;
}

bool ChordReader::takeModifier() {
    if (take("(")) return ++openParentheses == 1;
    if (take(")")) return --openParentheses == 0;
    if (takeAny({",", " "})) return openParentheses == 1;
    if (take("sus2")) return suspend(ChordQuality::Suspended2);
    if (takeAny({"sus4", "sus"})) return suspend(ChordQuality::Suspended4);
    if (take("alt")) {
        if (chord.quality == ChordQuality::Major && number == 0) chord.quality = ChordQuality::Dominant;
        if (chord.quality != ChordQuality::Dominant || number > 7 || !chord.alterations.empty()) return false;
        chord.extension = 7;
        chord.alterations = alteredDominant();
        return true;
    }
    if (take("add")) return takeAlteration() || addDegree(takeDegree({13, 11, 9, 6, 4, 2}));
    // C7(13), Cm7(11): a degree alone in parentheses is added.
    return takeAlteration() || (openParentheses == 1 && addDegree(takeDegree({13, 11, 9})));
}

bool ChordReader::takeAlteration() {
    const std::string_view before = rest;
    const bool plus = takeAny({"+", "aug"});
    const bool up = plus || takeAny({"#", "♯"});
    if (!up && !takeAny({"b", "♭", "-", "−"})) return false;
    if (const std::optional<int> degree = takeDegree({13, 11, 9, 6, 5}))
        return addAlteration(*degree, up ? 1 : -1);
    // A plus alone after the number raises the fifth: C7+.
    if (plus && number >= 7) return addAlteration(5, 1);
    rest = before;
    return false;
}

bool ChordReader::addDegree(std::optional<int> degree) {
    if (degree) chord.added.push_back(*degree);
    return degree.has_value();
}

bool ChordReader::addAlteration(int degree, int alter) {
    const bool known = degree == 5 || degree == 9 || (degree == 11 && alter > 0) ||
                       ((degree == 6 || degree == 13) && alter < 0);
    if (known && !alters(chord, {degree, alter})) chord.alterations.push_back({degree, alter});
    return known;
}

bool ChordReader::suspend(ChordQuality suspended) {
    const bool possible = chord.quality == ChordQuality::Dominant ||
                          (chord.quality == ChordQuality::Major && chord.extension <= 6);
    chord.quality = suspended;
    return possible;
}

bool ChordReader::takeBass() {
    if (rest.empty()) return true;
    take("/");
    chord.bass = takeName();
    return chord.bass && rest.empty();
}

void ChordReader::settle() {
    const auto absorb = [&](const Alteration& alteration, ChordQuality quality) {
        std::erase(chord.alterations, alteration);
        chord.quality = quality;
    };
    const bool triad = chord.extension == 5;
    if (chord.quality == ChordQuality::Minor && chord.extension != 6 && alters(chord, {5, -1}))
        absorb({5, -1}, triad ? ChordQuality::Diminished : ChordQuality::HalfDiminished);
    if (chord.quality == ChordQuality::Major && triad && alters(chord, {5, 1}))
        absorb({5, 1}, ChordQuality::Augmented);
    std::sort(chord.alterations.begin(), chord.alterations.end(), comesFirst);
    std::sort(chord.added.begin(), chord.added.end());
    chord.added.erase(std::unique(chord.added.begin(), chord.added.end()), chord.added.end());
}

bool ChordReader::isSound() const {
    // These already say what their fifth is, or have no more than it.
    const bool closed = chord.quality == ChordQuality::Power || chord.quality == ChordQuality::Diminished;
    const bool ownFifth =
        closed || chord.quality == ChordQuality::HalfDiminished || chord.quality == ChordQuality::Augmented;
    if (closed && !chord.alterations.empty()) return false;
    if (chord.quality == ChordQuality::Power && !chord.added.empty()) return false;
    return !ownFifth || (!alters(chord, {5, -1}) && !alters(chord, {5, 1}));
}

} // namespace earwright
