#include "core/exchange/HarmonyKind.h"

#include <algorithm>
#include <array>
#include <map>

namespace earwright {

namespace {

struct Stacked {
    std::string kind;
    /// The highest third the kind has by itself.
    int reach;
};

/// Kinds by extension: the triad, 6, 7, 9, 11, 13; an empty one is made of the one before.
using Row = std::array<const char*, 6>;

const Row& rowOf(ChordQuality quality) {
    static const std::map<ChordQuality, Row> rows{
        {ChordQuality::Major,
         {"major", "major-sixth", "major-seventh", "major-ninth", "major-11th", "major-13th"}},
        {ChordQuality::Minor,
         {"minor", "minor-sixth", "minor-seventh", "minor-ninth", "minor-11th", "minor-13th"}},
        {ChordQuality::Dominant,
         {"dominant", "", "dominant", "dominant-ninth", "dominant-11th", "dominant-13th"}},
        {ChordQuality::MinorMajor, {"major-minor", "", "major-minor", "", "", ""}},
        {ChordQuality::HalfDiminished, {"half-diminished", "", "half-diminished", "", "", ""}},
        {ChordQuality::Diminished, {"diminished", "", "diminished-seventh", "", "", ""}},
        {ChordQuality::Augmented, {"augmented", "", "augmented-seventh", "", "", ""}},
        {ChordQuality::Suspended2, {"suspended-second", "", "", "", "", ""}},
        {ChordQuality::Suspended4, {"suspended-fourth", "", "", "", "", ""}},
        {ChordQuality::Power, {"power", "", "", "", "", ""}},
    };
    return rows.at(quality);
}

Stacked stackedKind(const Chord& chord) {
    static constexpr std::array<int, 6> extensions{5, 6, 7, 9, 11, 13};
    Stacked found{rowOf(chord.quality)[0], 5};
    for (std::size_t i = 0; i < extensions.size(); ++i)
        if (extensions[i] <= chord.extension && *rowOf(chord.quality)[i] != '\0' &&
            (extensions[i] != 6 || chord.extension == 6))
            found = {rowOf(chord.quality)[i], extensions[i]};
    return found;
}

bool isAltered(const Chord& chord, int degree) {
    for (const Alteration& alteration : chord.alterations)
        if (alteration.degree == degree) return true;
    return false;
}

} // namespace

HarmonyKind harmonyKind(const Chord& symbol) {
    Chord chord = symbol;
    // A dominant with a raised fifth, and no other fifth, has a kind of its own.
    const bool isRaised = chord.quality == ChordQuality::Dominant && chord.extension == 7 &&
                          std::count_if(chord.alterations.begin(), chord.alterations.end(),
                                        [](const Alteration& a) { return a.degree == 5; }) == 1;
    if (isRaised && std::erase(chord.alterations, Alteration{5, 1}) > 0)
        chord.quality = ChordQuality::Augmented;
    const Stacked stacked = stackedKind(chord);
    HarmonyKind harmony{stacked.kind, {}};
    const auto has = [&](int degree) { return degree == 5 || (degree >= 7 && degree <= stacked.reach); };
    if (chord.extension == 6 && stacked.reach < 6) harmony.degrees.push_back({6, 0, "add"});
    for (int degree = 7; degree <= chord.extension; degree += 2)
        if (!has(degree) && !isAltered(chord, degree)) harmony.degrees.push_back({degree, 0, "add"});
    std::map<int, bool> changed;
    for (const Alteration& alteration : chord.alterations) {
        // ♭9 and ♯9 together: the second one is a tone more.
        const bool replaces = has(alteration.degree) && !changed[alteration.degree];
        harmony.degrees.push_back({alteration.degree, alteration.alter, replaces ? "alter" : "add"});
        changed[alteration.degree] = true;
    }
    for (const int degree : chord.added)
        harmony.degrees.push_back({degree, 0, "add"});
    return harmony;
}

} // namespace earwright
