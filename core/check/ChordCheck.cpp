#include "core/check/ChordCheck.h"

#include "core/check/ChordWeights.h"
#include "core/music/Pitch.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace earwright {

namespace {

/// Set so that of right chords about 1 % are contradicted (weights.py).
constexpr double contradicted = 0.008;
constexpr double supported = 0.5;
/// Levels beside the strongest note at which a note is plainly there, or plainly not.
constexpr double plainlyHeard = 0.25;
constexpr double notHeard = 0.12;
constexpr double clearBass = 0.5;
constexpr std::size_t mostNamed = 3;

using FamilyChances = std::array<double, chordFamilies>;
/// By root, then family.
using Chances = std::array<FamilyChances, 12>;

double score(std::size_t root, const ChordFamilyWeights& weights, const ChordSound& sound) {
    double sum = weights.usual;
    for (std::size_t degree = 0; degree < 12; ++degree) {
        const std::size_t name = (root + degree) % 12;
        sum += weights.comping[degree] * sound.comping[name] + weights.bass[degree] * sound.bass[name] +
               weights.firstBass[degree] * sound.firstBass[name];
    }
    return sum;
}

Chances chancesOf(const ChordSound& sound) {
    Chances chances{};
    double most = -1e9, total = 0;
    for (std::size_t root = 0; root < 12; ++root)
        for (std::size_t family = 0; family < chordFamilies; ++family) {
            chances[root][family] = score(root, chordWeights.families[family], sound);
            most = std::max(most, chances[root][family]);
        }
    for (FamilyChances& families : chances)
        for (double& chance : families)
            total += chance = std::exp(chance - most);
    for (FamilyChances& families : chances)
        for (double& chance : families)
            chance /= total;
    return chances;
}

bool isAltered(const Chord& chord, int degree, int by) {
    return std::any_of(chord.alterations.begin(), chord.alterations.end(),
                       [&](const Alteration& a) { return a.degree == degree && a.alter == by; });
}

/// The families that a symbol leaves open: a triad says nothing of its seventh.
std::vector<ChordFamily> familiesOf(const Chord& chord) {
    using enum ChordFamily;
    const bool isTriad = chord.extension <= 5;
    switch (chord.quality) {
    case ChordQuality::Major:
        if (isAltered(chord, 5, 1)) return {Augmented};
        return isTriad ? std::vector{Major, Dominant} : std::vector{Major};
    case ChordQuality::Minor:
    case ChordQuality::MinorMajor:
        return {Minor};
    case ChordQuality::Dominant:
        // A raised fifth, or a lowered thirteenth, is what an augmented chord sounds like.
        if (isAltered(chord, 5, 1) || isAltered(chord, 13, -1)) return {Dominant, Augmented};
        return {Dominant};
    case ChordQuality::HalfDiminished:
        return {HalfDiminished};
    case ChordQuality::Diminished:
        return isTriad ? std::vector{Diminished, HalfDiminished} : std::vector{Diminished};
    case ChordQuality::Augmented:
        return {Augmented};
    case ChordQuality::Suspended2:
        return {Suspended, Major};
    case ChordQuality::Suspended4:
        return {Suspended};
    case ChordQuality::Power:
        return {Major, Dominant, Minor, Suspended};
    }
    return {};
}

int nameAbove(int root, int interval) {
    return (root + interval) % 12;
}

/// Strongest first.
void keepStrongest(std::vector<int>& names, const NoteNames& level) {
    std::sort(names.begin(), names.end(), [&](int a, int b) {
        return level[static_cast<std::size_t>(a)] > level[static_cast<std::size_t>(b)];
    });
    if (names.size() > mostNamed) names.resize(mostNamed);
}

std::vector<int> heardOf(const std::vector<int>& tones, int root, const NoteNames& level) {
    std::vector<int> names;
    for (const int interval : tones) {
        const int name = nameAbove(root, interval);
        const bool isNew = std::find(names.begin(), names.end(), name) == names.end();
        if (isNew && level[static_cast<std::size_t>(name)] >= plainlyHeard) names.push_back(name);
    }
    return names;
}

std::vector<int> heardAgainst(const std::vector<int>& tones, int root, const NoteNames& level) {
    std::vector<int> names;
    for (int name = 0; name < 12; ++name) {
        const bool isTone = std::any_of(tones.begin(), tones.end(),
                                        [&](int interval) { return nameAbove(root, interval) == name; });
        // Ninths and thirteenths are added to any chord (common practice).
        const bool isUsual = name == nameAbove(root, 2) || name == nameAbove(root, 9);
        if (!isTone && !isUsual && level[static_cast<std::size_t>(name)] >= plainlyHeard)
            names.push_back(name);
    }
    keepStrongest(names, level);
    return names;
}

std::vector<int> missing(const std::vector<int>& tones, int root, const NoteNames& level) {
    std::vector<int> names;
    for (const int interval : tones) {
        // The perfect fifth is often left out, and so is the root, which the bass has (common practice).
        const bool isExpected = interval > 2 && interval < 12 && interval != 7;
        const int name = nameAbove(root, interval);
        if (isExpected && level[static_cast<std::size_t>(name)] <= notHeard) names.push_back(name);
    }
    return names;
}

/// Nothing where no bass is heard.
std::optional<int> strongestOf(const NoteNames& bass) {
    const auto strongest = std::max_element(bass.begin(), bass.end());
    return *strongest > 0 ? std::optional(static_cast<int>(strongest - bass.begin())) : std::nullopt;
}

std::optional<int> ownBass(const Chord& chord, const NoteNames& bass) {
    const auto name = strongestOf(bass);
    const bool isRoot = name == chord.root.pitchClass();
    return isRoot || (chord.bass && name == chord.bass->pitchClass()) ? name : std::nullopt;
}

std::optional<int> otherBass(const Chord& chord, const NoteNames& bass) {
    const auto name = strongestOf(bass);
    const int root = chord.root.pitchClass();
    const int written = chord.bass ? chord.bass->pitchClass() : root;
    const double own =
        std::max(bass[static_cast<std::size_t>(root)], bass[static_cast<std::size_t>(written)]);
    if (!name || name == root || name == written || own > clearBass) return std::nullopt;
    return name;
}

Verdict verdictFor(double chance, const Chord& chord) {
    if (chance >= supported) return Verdict::Supported;
    const bool isInverted = chord.bass && chord.bass->pitchClass() != chord.root.pitchClass();
    return chance < contradicted && !isInverted ? Verdict::Contradicted : Verdict::Unclear;
}

} // namespace

ChordAnswer judgeChord(const Chord& chord, const ChordSound& sound) {
    ChordAnswer answer;
    const auto loudest = *std::max_element(sound.comping.begin(), sound.comping.end());
    if (loudest <= 0) return answer;
    const int root = chord.root.pitchClass();
    const Chances chances = chancesOf(sound);
    for (const ChordFamily family : familiesOf(chord))
        answer.score += chances[static_cast<std::size_t>(root)][static_cast<std::size_t>(family)];
    answer.verdict = verdictFor(answer.score, chord);
    const std::vector<int> tones = chord.intervals();
    answer.heard = heardOf(tones, root, sound.comping);
    answer.ownBass = ownBass(chord, sound.firstBass);
    if (answer.verdict == Verdict::Supported) return answer;
    answer.heardAgainst = heardAgainst(tones, root, sound.comping);
    answer.missing = missing(tones, root, sound.comping);
    answer.bass = otherBass(chord, sound.firstBass);
    return answer;
}

} // namespace earwright
