#include "core/listening/PartialFeatures.h"

#include "core/listening/QuickLog.h"
#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <span>
#include <vector>

namespace earwright {

namespace {

/// Room beyond the axis on both sides, for partials of the lowest and highest pitches.
constexpr int padding = 96;
constexpr std::size_t paddedBins = axisBins + 3 * padding;
/// A partial may be a third of a semitone off: bends, vibrato, stiff strings. Each bin becomes the highest of
/// itself and its neighbours.
LogBins widened(const LogBins& bins) {
    LogBins levels;
    levels.front() = std::max(bins[0], bins[1]);
    for (std::size_t i = 1; i + 1 < axisBins; ++i)
        levels[i] = std::max({bins[i - 1], bins[i], bins[i + 1]});
    levels.back() = std::max(bins[axisBins - 2], bins[axisBins - 1]);
    return levels;
}

/// The spectra in which pitches look up their partials, one after the other, each with room for partials
/// beyond the axis, where there is nothing.
template <std::size_t Spectra>
struct Levels {
    std::array<float, Spectra * paddedBins> all{};

    void set(std::size_t spectrum, const LogBins& levels) {
        std::ranges::copy(levels, all.begin() + spectrum * paddedBins + padding);
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

/// Where the lowest pitch looks up its features one after the other; a pitch a semitone higher does so
/// `binsPerSemitone` farther up.
class Columns {
public:
    Columns& of(std::size_t spectrum, const std::vector<int>& offsets) {
        constexpr int lowest = (lowestHeardMidi - axisLowestMidi) * binsPerSemitone + padding;
        for (const int offset : offsets)
            places.push_back(static_cast<int>(spectrum * paddedBins) + lowest + offset);
        return *this;
    }
    std::size_t size() const { return places.size(); }
    const int* data() const { return places.data(); }

private:
    std::vector<int> places;
};

/// Looks the columns up for each pitch; behind them, where the pitch lies in double octaves from middle C,
/// and the square of it.
template <std::size_t Count>
EARWRIGHT_WIDE_VECTORS void lookUp(const float* levels, const int* places, std::size_t columns,
                                   FeatureTable<Count>& table) {
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        const float* const from = levels + pitch * binsPerSemitone;
        float* const row = table[pitch].data();
        for (std::size_t column = 0; column < columns; ++column)
            row[column] = from[places[column]];
        const float place = static_cast<float>(static_cast<int>(pitch) + lowestHeardMidi - 60) / 24;
        row[columns] = place;
        row[columns + 1] = place * place;
    }
}

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

/// The spectra of a span, in the order in which its features look them up.
enum SpanSpectrum { Attack, Before, Rise, Sustain, AllOfSpan };

const Columns& spanColumnPlaces() {
    static const Columns columns = [] {
        const Places at;
        return Columns()
            .of(Attack, at.harmonics)
            .of(Rise, at.harmonics)
            .of(Sustain, at.harmonics)
            .of(Before, at.firstHarmonics)
            .of(Attack, at.halves)
            .of(Rise, at.halves)
            .of(Sustain, at.halves)
            .of(Sustain, at.thirds)
            .of(Rise, at.thirds)
            .of(Sustain, at.sides)
            .of(Rise, at.firstSides);
    }();
    return columns;
}

Levels<AllOfSpan> paddedLevels(const SpanLevels& heard) {
    Levels<AllOfSpan> levels;
    levels.set(Attack, heard.attack);
    levels.set(Before, heard.before);
    levels.set(Rise, heard.rise);
    levels.set(Sustain, heard.sustain);
    return levels;
}

/// Every third level, from the first, second and third on: what a column looks up for the pitches from the
/// lowest up then follows one another.
class Thirds {
public:
    explicit Thirds(const SpanLevels& heard) {
        const auto levels = paddedLevels(heard);
        for (std::size_t first = 0; first < binsPerSemitone; ++first)
            for (std::size_t i = 0; first + i * binsPerSemitone < levels.all.size(); ++i)
                thirds[first][i] = levels.all[first + i * binsPerSemitone];
    }
    /// As many levels as columnSize, of which those beyond pitchCount say nothing.
    const float* column(std::size_t feature) const {
        const auto place = static_cast<std::size_t>(spanColumnPlaces().data()[feature]);
        return thirds[place % binsPerSemitone].data() + place / binsPerSemitone;
    }

private:
    static constexpr std::size_t size = AllOfSpan * paddedBins / binsPerSemitone + 1;
    std::array<std::array<float, size + wideSize>, binsPerSemitone> thirds{};
};

/// `column`: where the levels of a feature begin, as many as columnSize.
template <class Column>
EARWRIGHT_INLINE inline PitchRow weighed(const std::array<float, soundFeatureCount>& weights, Column column) {
    constexpr std::size_t wides = columnSize / wideSize;
    Wide sums[wides]{};
    for (std::size_t feature = 0; feature < soundFeatureCount; ++feature) {
        for (std::size_t i = 0; i < wides; ++i) {
            Wide numbers;
            load(numbers, column(feature) + i * wideSize);
            sums[i] += numbers * weights[feature];
        }
    }
    std::array<float, columnSize> added;
    for (std::size_t i = 0; i < wides; ++i)
        store(added.data() + i * wideSize, sums[i]);
    PitchRow row;
    std::copy_n(added.begin(), pitchCount, row.log.begin());
    return row;
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

SpanLevels spanLevels(const SpanSpectra& spectra) {
    const LogBins floor = floorOf(spectra.attack);
    return {widened(whitened(spectra.attack, floor)), widened(whitened(spectra.before, floor)),
            widened(whitened(risen(spectra.attack, spectra.before), floor)),
            widened(whitened(spectra.sustain, floorOf(spectra.sustain)))};
}

FeatureTable<spanFeatureCount> spanFeatures(const SpanLevels& heard) {
    const Columns& at = spanColumnPlaces();
    FeatureTable<spanFeatureCount> table;
    assert(at.size() + placeFeatureCount == spanFeatureCount);
    lookUp(paddedLevels(heard).all.data(), at.data(), at.size(), table);
    return table;
}

SoundColumns soundColumns(const SpanLevels& heard) {
    const Thirds thirds(heard);
    SoundColumns columns{};
    for (std::size_t feature = 0; feature < soundFeatureCount; ++feature)
        std::copy_n(thirds.column(feature), pitchCount, columns[feature].begin());
    return columns;
}

EARWRIGHT_WIDE_VECTORS
PitchRow weighedSound(const SoundColumns& columns, const std::array<float, soundFeatureCount>& weights) {
    return weighed(weights, [&](std::size_t feature) { return columns[feature].data(); });
}

EARWRIGHT_WIDE_VECTORS
PitchRow weighedSound(const SpanLevels& heard, const std::array<float, soundFeatureCount>& weights) {
    const Thirds thirds(heard);
    return weighed(weights, [&](std::size_t feature) { return thirds.column(feature); });
}

FeatureTable<onsetFeatureCount> onsetFeatures(const LogBins& after, const LogBins& before, float usualLevel) {
    enum { Now, Then, Risen, All };
    static const Columns columns = [] {
        const Places at;
        return Columns()
            .of(Now, at.harmonics)
            .of(Risen, at.harmonics)
            .of(Then, at.firstHarmonics)
            .of(Now, at.halves)
            .of(Risen, at.halves)
            .of(Risen, at.thirds)
            .of(Risen, at.sides)
            .of(Now, at.firstSides);
    }();
    const LogBins floor = floorOf(after);
    const LogBins riseLevels = whitened(risen(after, before), floor);
    Levels<All> levels;
    levels.set(Now, widened(whitened(after, floor)));
    levels.set(Then, widened(whitened(before, floor)));
    levels.set(Risen, widened(riseLevels));
    FeatureTable<onsetFeatureCount> table;
    assert(columns.size() + placeFeatureCount + fluxFeatureCount == onsetFeatureCount);
    lookUp(levels.all.data(), columns.data(), columns.size(), table);
    const float loudest = *std::max_element(after.begin(), after.end());
    const std::array<float, fluxFeatureCount> flux{
        meanOf(riseLevels, 0.1, 300), meanOf(riseLevels, 300, 2000), meanOf(riseLevels, 2000, 20000),
        std::log(loudest / usualLevel + 1e-4f)};
    for (auto& row : table)
        std::ranges::copy(flux, row.end() - fluxFeatureCount);
    return table;
}

} // namespace earwright
