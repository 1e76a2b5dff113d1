#include "core/listening/PartialFeatures.h"

#include "core/listening/QuickLog.h"
#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace earwright {

namespace {

/// Room beyond the axis on both sides, for partials of the lowest and highest pitches.
constexpr int padding = 96;
constexpr std::size_t paddedBins = axisBins + 3 * padding;

/// Levels around which each pitch looks up its partials; zero beyond the axis.
struct Lookup {
    std::array<float, paddedBins> level{};

    /// A partial may be a third of a semitone off: bends, vibrato, stiff strings.
    explicit Lookup(const LogBins& bins) {
        for (std::size_t i = 0; i < axisBins; ++i) {
            float top = bins[i];
            if (i > 0) top = std::max(top, bins[i - 1]);
            if (i + 1 < axisBins) top = std::max(top, bins[i + 1]);
            level[i + padding] = top;
        }
    }
};

std::vector<int> partials(std::initializer_list<double> ratios) {
    std::vector<int> offsets;
    for (const double ratio : ratios)
        offsets.push_back(static_cast<int>(std::lround(12 * binsPerSemitone * std::log2(ratio))));
    return offsets;
}

std::vector<int> semitones(std::initializer_list<int> steps) {
    std::vector<int> offsets;
    for (const int step : steps)
        offsets.push_back(step * binsPerSemitone);
    return offsets;
}

/// Where a pitch listens, as offsets in bins from its fundamental.
struct Places {
    std::vector<int> harmonics = partials({1, 2, 3, 4, 5, 6, 7, 8, 9, 10});
    std::vector<int> firstHarmonics = partials({1, 2, 3, 4, 5, 6});
    /// Between its partials: what is heard there speaks for the octave below.
    std::vector<int> halves = partials({0.5, 1.5, 2.5, 3.5, 4.5});
    /// What is heard there speaks for the twelfth below.
    std::vector<int> thirds = partials({1.0 / 3, 2.0 / 3, 4.0 / 3, 5.0 / 3, 7.0 / 3, 8.0 / 3});
    /// A semitone beside the first three partials: what is heard there speaks for a neighbour.
    std::vector<int> sides = semitones({-1, 1, 11, 13, 18, 20});
    std::vector<int> firstSides = semitones({-1, 1, 11, 13});
};

const Places& places() {
    static const Places all;
    return all;
}

/// Fills a table group by group.
template <std::size_t Count>
struct Filler {
    FeatureTable<Count> table{};
    std::size_t column = 0;

    void group(const Lookup& lookup, const std::vector<int>& offsets) {
        for (const int offset : offsets) {
            for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
                const int bin =
                    (static_cast<int>(pitch) + lowestHeardMidi - axisLowestMidi) * binsPerSemitone;
                table[pitch][column] = lookup.level[static_cast<std::size_t>(bin + offset + padding)];
            }
            ++column;
        }
    }
    /// Where the pitch lies, in double octaves from middle C, and the square of it.
    void place() {
        for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
            const float place = static_cast<float>(static_cast<int>(pitch) + lowestHeardMidi - 60) / 24;
            table[pitch][column] = place;
            table[pitch][column + 1] = place * place;
        }
        column += 2;
    }
};

/// The mean level around each bin: geometric over an octave, and at least 3 % of the loudest, so that silence
/// is not blown up.
EARWRIGHT_WIDE_VECTORS
LogBins floorOf(const LogBins& bins) {
    constexpr std::ptrdiff_t octave = 12 * binsPerSemitone;
    constexpr auto size = static_cast<std::ptrdiff_t>(axisBins);
    LogBins logs;
    for (std::size_t i = 0; i < axisBins; ++i)
        logs[i] = quickLog(bins[i] + 1e-6f);
    // Beyond both ends the axis is mirrored.
    const auto at = [&](std::ptrdiff_t i) {
        return logs[static_cast<std::size_t>(i < 0 ? -i - 1 : i >= size ? 2 * size - 1 - i : i)];
    };
    const float least = 0.03f * *std::max_element(bins.begin(), bins.end()) + 1e-6f;
    double sum = 0;
    for (std::ptrdiff_t i = -octave / 2; i < octave / 2; ++i)
        sum += at(i);
    LogBins means;
    for (std::ptrdiff_t i = 0; i < size; ++i) {
        means[static_cast<std::size_t>(i)] = static_cast<float>(sum / octave);
        sum += at(i + octave / 2) - at(i - octave / 2);
    }
    LogBins floor;
    for (std::size_t i = 0; i < axisBins; ++i)
        floor[i] = std::max(least, quickExp(means[i]));
    return floor;
}

EARWRIGHT_WIDE_VECTORS
LogBins whitened(const LogBins& bins, const LogBins& floor) {
    LogBins levels;
    for (std::size_t i = 0; i < axisBins; ++i)
        levels[i] = quickLog(1 + 1.5f * bins[i] / floor[i]);
    return levels;
}

LogBins risen(const LogBins& after, const LogBins& before) {
    LogBins rise;
    for (std::size_t i = 0; i < axisBins; ++i)
        rise[i] = std::max(after[i] - before[i], 0.0f);
    return rise;
}

float meanOf(const LogBins& bins, double fromHertz, double toHertz) {
    const auto binAt = [](double hertz) {
        const double bin = (69 - axisLowestMidi + 12 * std::log2(hertz / 440)) * binsPerSemitone;
        return static_cast<std::ptrdiff_t>(std::clamp(bin, 0.0, static_cast<double>(axisBins)));
    };
    double sum = 0;
    for (std::ptrdiff_t i = binAt(fromHertz); i < binAt(toHertz); ++i)
        sum += bins[static_cast<std::size_t>(i)];
    return static_cast<float>(sum / static_cast<double>(binAt(toHertz) - binAt(fromHertz)));
}

} // namespace

FeatureTable<spanFeatureCount> spanFeatures(const SpanSpectra& spectra) {
    const LogBins floor = floorOf(spectra.attack);
    const Lookup attack(whitened(spectra.attack, floor));
    const Lookup before(whitened(spectra.before, floor));
    const Lookup rise(whitened(risen(spectra.attack, spectra.before), floor));
    const Lookup sustain(whitened(spectra.sustain, floorOf(spectra.sustain)));
    const Places& at = places();
    Filler<spanFeatureCount> fill;
    fill.group(attack, at.harmonics);
    fill.group(rise, at.harmonics);
    fill.group(sustain, at.harmonics);
    fill.group(before, at.firstHarmonics);
    fill.group(attack, at.halves);
    fill.group(rise, at.halves);
    fill.group(sustain, at.halves);
    fill.group(sustain, at.thirds);
    fill.group(rise, at.thirds);
    fill.group(sustain, at.sides);
    fill.group(rise, at.firstSides);
    fill.place();
    return fill.table;
}

FeatureTable<onsetFeatureCount> onsetFeatures(const LogBins& after, const LogBins& before, float usualLevel) {
    const LogBins floor = floorOf(after);
    const LogBins riseLevels = whitened(risen(after, before), floor);
    const Lookup now(whitened(after, floor));
    const Lookup then(whitened(before, floor));
    const Lookup rise(riseLevels);
    const Places& at = places();
    Filler<onsetFeatureCount> fill;
    fill.group(now, at.harmonics);
    fill.group(rise, at.harmonics);
    fill.group(then, at.firstHarmonics);
    fill.group(now, at.halves);
    fill.group(rise, at.halves);
    fill.group(rise, at.thirds);
    fill.group(rise, at.sides);
    fill.group(now, at.firstSides);
    fill.place();
    const float loudest = *std::max_element(after.begin(), after.end());
    const std::array<float, fluxFeatureCount> flux{
        meanOf(riseLevels, 0.1, 300), meanOf(riseLevels, 300, 2000), meanOf(riseLevels, 2000, 20000),
        std::log(loudest / usualLevel + 1e-4f)};
    for (auto& row : fill.table)
        std::copy(flux.begin(), flux.end(), row.begin() + static_cast<std::ptrdiff_t>(fill.column));
    return fill.table;
}

} // namespace earwright
