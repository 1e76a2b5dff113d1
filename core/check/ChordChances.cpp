#include "core/check/ChordChances.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

using Levels = std::array<NoteNames, ChordWeights::parts>;
using Units = std::array<float, ChordWeights::units>;

Levels levelsOf(const ChordSound& sound, BassSpeaks bass) {
    Levels levels{sound.comping,      sound.registers[0], sound.registers[1],
                  sound.registers[2], sound.bass,         sound.firstBass};
    if (bass == BassSpeaks::AfterItsBeginning) levels.back().fill(0);
    for (NoteNames& names : levels)
        for (double& level : names)
            level = std::sqrt(level);
    return levels;
}

Units unitsOf(const Levels& levels, std::size_t root) {
    Units sums = chordWeights.hiddenBias;
    for (std::size_t part = 0; part < levels.size(); ++part)
        for (std::size_t degree = 0; degree < 12; ++degree) {
            const auto level = static_cast<float>(levels[part][(root + degree) % 12]);
            const Units& weights = chordWeights.hidden[part * 12 + degree];
            for (std::size_t unit = 0; unit < sums.size(); ++unit)
                sums[unit] += level * weights[unit];
        }
    for (float& sum : sums)
        sum = std::tanh(sum);
    return sums;
}

double scoreOf(const Units& units, std::size_t family) {
    float sum = chordWeights.outBias[family];
    for (std::size_t unit = 0; unit < units.size(); ++unit)
        sum += units[unit] * chordWeights.out[family][unit];
    return static_cast<double>(sum);
}

/// Softmax over all roots and families.
void makeChances(ChordChances& scores) {
    double most = scores[0][0], total = 0;
    for (const auto& families : scores)
        most = std::max(most, *std::max_element(families.begin(), families.end()));
    for (auto& families : scores)
        for (double& score : families)
            total += score = std::exp(score - most);
    for (auto& families : scores)
        for (double& chance : families)
            chance /= total;
}

} // namespace

ChordChances chordChances(const ChordSound& sound, BassSpeaks bass) {
    const Levels levels = levelsOf(sound, bass);
    ChordChances chances{};
    for (std::size_t root = 0; root < 12; ++root) {
        const Units units = unitsOf(levels, root);
        for (std::size_t family = 0; family < chordFamilies; ++family)
            chances[root][family] = scoreOf(units, family);
    }
    makeChances(chances);
    return chances;
}

} // namespace earwright
