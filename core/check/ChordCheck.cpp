#include "core/check/ChordCheck.h"

#include "core/check/ChordChances.h"
#include "core/music/Pitch.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <vector>

namespace earwright {

namespace {

/// Limits set so that of right chords about 1 % are contradicted (weights.py): another root is played, or the
/// root with another third, fifth or seventh. A root that is not looked for in the bass is less sure.
constexpr double contradictedRoot = 0.005;
constexpr double contradictedRootOverBass = 0.0005;
/// By family, of the chances of all families on the root. Sevenths are a third of all chords, so that what
/// leaves them a fiftieth speaks against them as plainly as what leaves others less.
constexpr std::array<double, chordFamilies> contradictedFamily{0.007, 0.02,  0.006, 0.005,
                                                               0.003, 0.003, 0.003, 0.003};
constexpr double supported = 0.5;
/// Levels beside the strongest note at which a note is plainly there, or plainly not.
constexpr double plainlyHeard = 0.25;
constexpr double notHeard = 0.12;
constexpr std::size_t mostNamed = 3;

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
        // A minor triad or sixth is played with a major seventh too (common practice).
        return chord.extension <= 6 ? std::vector{Minor, MinorMajor} : std::vector{Minor};
    case ChordQuality::MinorMajor:
        return {MinorMajor};
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
        return {Major, Dominant, Minor, MinorMajor, Suspended};
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

/// Whether another bass than the root is written.
bool isOverBass(const Chord& chord) {
    return chord.bass && chord.bass->pitchClass() != chord.root.pitchClass();
}

struct Chances {
    double root = 0;
    double chord = 0;
    /// The chances of its families, each divided by its limit.
    double besideLimits = 0;
};

Chances chancesOf(const Chord& chord, const ChordSound& sound) {
    const ChordChances all =
        chordChances(sound, isOverBass(chord) ? BassSpeaks::AfterItsBeginning : BassSpeaks::Throughout);
    const auto& families = all[static_cast<std::size_t>(chord.root.pitchClass())];
    Chances chances{std::accumulate(families.begin(), families.end(), 0.0)};
    for (const ChordFamily family : familiesOf(chord)) {
        const auto index = static_cast<std::size_t>(family);
        chances.chord += families[index];
        chances.besideLimits += families[index] / contradictedFamily[index];
    }
    return chances;
}

Verdict verdictFor(const Chances& chances, const Chord& chord) {
    if (chances.chord >= supported) return Verdict::Supported;
    const bool isOtherRoot = chances.root < (isOverBass(chord) ? contradictedRootOverBass : contradictedRoot);
    const bool isOtherFamily = chances.besideLimits < chances.root;
    return isOtherRoot || isOtherFamily ? Verdict::Contradicted : Verdict::Unclear;
}

} // namespace

ChordAnswer judgeChord(const Chord& chord, const ChordSound& sound) {
    ChordAnswer answer;
    answer.bass = judgeBass(chord, sound);
    if (*std::max_element(sound.comping.begin(), sound.comping.end()) <= 0) return answer;
    const Chances chances = chancesOf(chord, sound);
    answer.score = chances.chord;
    answer.verdict = verdictFor(chances, chord);
    const int root = chord.root.pitchClass();
    const std::vector<int> tones = chord.intervals();
    answer.heard = heardOf(tones, root, sound.comping);
    if (answer.verdict == Verdict::Supported) return answer;
    answer.heardAgainst = heardAgainst(tones, root, sound.comping);
    answer.missing = missing(tones, root, sound.comping);
    return answer;
}

Verdict verdictOf(const ChordAnswer& answer) {
    return answer.bass.verdict == Verdict::Contradicted ? Verdict::Contradicted : answer.verdict;
}

} // namespace earwright
