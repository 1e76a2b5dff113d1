#include "core/listening/BeatFinder.h"

#include "core/listening/BeatPath.h"
#include "core/listening/Median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>

namespace earwright {

namespace {

constexpr double fastestBpm = 320;
constexpr double slowestBpm = 50;
/// Where nothing else is known; the middle of what is played.
constexpr double usualBpm = 140;
/// The tempo wanders by this part, and a beat between two taps is this much too long or short.
constexpr double tempoReach = 0.06;
constexpr double tapSeconds = 0.03;
constexpr std::size_t leastTaps = 2;
/// Strength from which something is played at all, and frames a beat may lie beside it.
constexpr float leastStroke = 0.15F;
constexpr double besideStroke = 10;
/// Beats on either side by which a place is judged, and by which it is told whether somebody keeps time.
constexpr std::ptrdiff_t neighbours = 4;
constexpr std::ptrdiff_t timeKeepers = 8;
/// Where another bar line is almost as likely, none is told.
/// In standard errors: the more bars, the smaller a difference tells.
constexpr double leastBarMargin = 2.5;
/// Signs that differ less from beat to beat than this are not told from chance.
constexpr double leastHarmonySpread = 0.08;
constexpr double leastFootSpread = 0.15;

int framesOf(double bpm) {
    return static_cast<int>(std::lround(60 / bpm / BeatActivation::step.value));
}

BeatPathWish wishFor(const BeatActivation& heard, const std::vector<Seconds>& taps) {
    BeatPathWish wish{
        framesOf(fastestBpm), framesOf(slowestBpm), {}, static_cast<double>(framesOf(usualBpm))};
    if (taps.size() < leastTaps) return wish;
    std::vector<double> lengths;
    for (std::size_t i = 1; i < taps.size(); ++i)
        lengths.push_back((taps[i] - taps[i - 1]).value / BeatActivation::step.value);
    const double length = medianOf(std::move(lengths));
    const double tapped = (taps.back() - taps.front()).value;
    const double reach = tempoReach + tapSeconds / tapped;
    wish.usualLength = 0;
    wish.shortest = std::clamp(static_cast<int>(std::floor(length * (1 - reach))), 8, 200);
    wish.longest = std::clamp(static_cast<int>(std::ceil(length * (1 + reach))), wish.shortest, 250);
    for (const Seconds& tap : taps)
        wish.taps.push_back(heard.frameOf(tap));
    return wish;
}

float strongestNear(const std::vector<float>& values, double frame, int reach) {
    float strongest = 0;
    for (int i = -reach; i <= reach; ++i) {
        const auto at = std::lround(frame) + i;
        if (at >= 0 && at < static_cast<std::ptrdiff_t>(values.size()))
            strongest = std::max(strongest, values[static_cast<std::size_t>(at)]);
    }
    return strongest;
}

/// The path lies in whole frames and anywhere in a stroke: moved to where the strokes around begin, by a line
/// through the neighbours, so that one early stroke does not pull its beat along.
std::vector<double> smoothed(const BeatActivation& heard, const std::vector<int>& beats) {
    std::vector<double> strokes;
    for (const int beat : beats) {
        double weights = 0;
        double sum = 0;
        for (int i = -3; i <= 5; ++i) {
            const int at = beat + i;
            if (at < 0 || at >= static_cast<int>(heard.size())) continue;
            const double weight = heard.all[static_cast<std::size_t>(at)];
            weights += weight;
            sum += weight * at;
        }
        strokes.push_back(weights > 0.3 ? 0.5 * beat + 0.5 * sum / weights : beat);
    }
    std::vector<double> even = strokes;
    for (std::size_t i = 1; i + 1 < strokes.size(); ++i)
        even[i] = 0.5 * strokes[i] + 0.25 * (strokes[i - 1] + strokes[i + 1]);
    return even;
}

/// Beats before the first stroke and after the last are only counted on, not heard.
void dropSilentEnds(const BeatActivation& heard, std::vector<double>& beats) {
    const auto isStroke = [](float strength) { return strength >= leastStroke; };
    const auto first = std::find_if(heard.all.begin(), heard.all.end(), isStroke);
    const auto last = std::find_if(heard.all.rbegin(), heard.all.rend(), isStroke);
    const auto begin = static_cast<double>(first - heard.all.begin()) - besideStroke;
    const auto end = static_cast<double>(heard.all.rend() - last) + besideStroke;
    std::erase_if(beats, [&](double beat) { return beat < begin || beat > end; });
}

/// How much begins on the beats around one, and how much at the best other place between them.
struct Contrast {
    double on = 0;
    double off = 0;
    /// Unevenness of the beats around, by their length.
    double uneven = 0;
    /// Mean logarithm of the strokes on more of the beats around: a rhythm section leaves none out, while a
    /// line alone fits many other beats as well.
    double steady = 0;
};

double steadinessAt(const BeatActivation& heard, const std::vector<double>& beats, std::size_t index) {
    const auto at = static_cast<std::ptrdiff_t>(index);
    const auto begin = std::max<std::ptrdiff_t>(0, at - timeKeepers);
    const auto end = std::min<std::ptrdiff_t>(std::ssize(beats), at + timeKeepers + 1);
    double sum = 0;
    for (auto i = begin; i < end; ++i)
        sum += std::log(
            std::clamp<double>(strongestNear(heard.all, beats[static_cast<std::size_t>(i)], 2), 0.01, 0.95));
    return sum / static_cast<double>(end - begin);
}

Contrast contrastAt(const BeatActivation& heard, const std::vector<double>& beats, std::size_t index) {
    static constexpr std::array others{0.25, 1.0 / 3, 0.5, 2.0 / 3, 0.75};
    std::array<double, others.size()> between{};
    Contrast contrast;
    double count = 0;
    std::vector<double> lengths;
    for (auto i = static_cast<std::ptrdiff_t>(index) - neighbours;
         i <= static_cast<std::ptrdiff_t>(index) + neighbours; ++i) {
        if (i < 0 || i + 1 >= static_cast<std::ptrdiff_t>(beats.size())) continue;
        const double beat = beats[static_cast<std::size_t>(i)];
        const double length = beats[static_cast<std::size_t>(i) + 1] - beat;
        contrast.on += strongestNear(heard.all, beat, 2);
        for (std::size_t other = 0; other < others.size(); ++other)
            between[other] += strongestNear(heard.all, beat + others[other] * length, 2);
        lengths.push_back(length);
        ++count;
    }
    contrast.steady = steadinessAt(heard, beats, index);
    if (count == 0) return contrast;
    contrast.on /= count;
    contrast.off = *std::max_element(between.begin(), between.end()) / count;
    const double usual = medianOf(lengths);
    for (const double length : lengths)
        contrast.uneven += std::abs(length / usual - 1) / count;
    return contrast;
}

double confidenceOf(const Contrast& contrast, bool isTapped) {
    // Logistic regression on what training/beats/render.py wrote with seeds 1 and 3, and with 11, 13 and 15
    // of a line alone; each file counts alike.
    const double score = isTapped ? 8.3 - 2.31 * contrast.on - 3.03 * contrast.off - 70.7 * contrast.uneven +
                                        2.17 * contrast.steady
                                  : 3.75 + 1.16 * contrast.on + 1.39 * contrast.off - 25.9 * contrast.uneven +
                                        2.05 * contrast.steady;
    return 1 / (1 + std::exp(-score));
}

/// How much each beat looks like the first of a bar, and like a beat on which the foot comes down.
struct BeatSigns {
    std::vector<double> harmony;
    std::vector<double> foot;
};

double likeness(const BeatActivation::Chroma& one, const BeatActivation::Chroma& other) {
    return std::inner_product(one.begin(), one.end(), other.begin(), 0.0);
}

BeatActivation::Chroma chromaBetween(const BeatActivation& heard, double from, double to) {
    BeatActivation::Chroma sum{};
    const auto begin = static_cast<std::size_t>(std::max(0.0, from));
    const auto end = std::min(heard.size(), static_cast<std::size_t>(std::max(0.0, to)));
    for (std::size_t frame = begin; frame < end; ++frame)
        for (std::size_t i = 0; i < sum.size(); ++i)
            sum[i] += heard.chroma[frame][i];
    const float length = std::sqrt(std::inner_product(sum.begin(), sum.end(), sum.begin(), 0.0F));
    for (float& value : sum)
        value = length > 0 ? value / length : 0;
    return sum;
}

void standardise(std::vector<double>& values, double leastSpread) {
    const auto count = static_cast<double>(values.size());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
    double spread = 0;
    for (const double value : values)
        spread += (value - mean) * (value - mean) / count;
    for (double& value : values)
        value = (value - mean) / std::max(leastSpread, std::sqrt(spread));
}

BeatSigns signsOf(const BeatActivation& heard, const std::vector<double>& beats) {
    BeatSigns signs;
    for (std::size_t i = 0; i < beats.size(); ++i) {
        const double length = i + 1 < beats.size() ? beats[i + 1] - beats[i] : beats[i] - beats[i - 1];
        // Two beats on either side: passing notes of a walking bass count for less.
        const auto before = chromaBetween(heard, beats[i] - 2 * length, beats[i]);
        const auto after = chromaBetween(heard, beats[i], beats[i] + 2 * length);
        signs.harmony.push_back(1 - likeness(before, after));
        signs.foot.push_back(strongestNear(heard.high, beats[i], 2));
    }
    standardise(signs.harmony, leastHarmonySpread);
    standardise(signs.foot, leastFootSpread);
    return signs;
}

struct BarLines {
    int beatsPerBar = 4;
    int first = 0;
    double score = -1e9;

    /// From 1.
    int positionOf(int beat) const { return ((beat - first) % beatsPerBar + beatsPerBar) % beatsPerBar + 1; }
};

double barScore(const BeatSigns& signs, int beatsPerBar, int first) {
    double score = 0;
    const auto count = static_cast<int>(signs.harmony.size());
    for (int i = 0; i < count; ++i) {
        const int position = ((i - first) % beatsPerBar + beatsPerBar) % beatsPerBar;
        const auto at = static_cast<std::size_t>(i);
        if (position == 0) score += beatsPerBar * signs.harmony[at];
        if (beatsPerBar == 4) score += (position % 2 == 1 ? 0.5 : -0.5) * signs.foot[at];
    }
    return score / count;
}

/// Nothing where no place of the bar line is clearly the best.
std::optional<BarLines> barLinesOf(const BeatSigns& signs) {
    constexpr std::size_t leastBeats = 12;
    if (signs.harmony.size() < leastBeats) return std::nullopt;
    BarLines best;
    double second = -1e9;
    for (const int beatsPerBar : {4, 3})
        for (int first = 0; first < beatsPerBar; ++first) {
            const double score = barScore(signs, beatsPerBar, first);
            if (score > best.score) {
                if (best.beatsPerBar == beatsPerBar) second = std::max(second, best.score);
                best = {beatsPerBar, first, score};
            } else if (beatsPerBar == best.beatsPerBar) {
                second = std::max(second, score);
            }
        }
    const double bars = static_cast<double>(signs.harmony.size()) / best.beatsPerBar;
    if ((best.score - second) * std::sqrt(bars) < leastBarMargin) return std::nullopt;
    return best;
}

/// Bars counted from the first tap. Requires: a tap and beatsPerBar.
BarLines barLinesFrom(const BeatActivation& heard, const std::vector<double>& beats, const BeatWish& wish) {
    const double tap = heard.frameOf(wish.taps.front());
    const auto nearest = std::min_element(beats.begin(), beats.end(), [&](double one, double other) {
        return std::abs(one - tap) < std::abs(other - tap);
    });
    return {*wish.beatsPerBar, static_cast<int>(nearest - beats.begin()) - (wish.firstTapInBar - 1)};
}

} // namespace

Result<std::vector<FoundBeat>> findBeats(const BeatActivation& heard, BeatWish wish, std::stop_token stop) {
    std::sort(wish.taps.begin(), wish.taps.end());
    const auto path = likeliestPath(heard, wishFor(heard, wish.taps), stop);
    if (!path) return path.error();
    std::vector<FoundBeat> found;
    if (path->beats.size() < 2) return found;
    std::vector<double> beats = smoothed(heard, path->beats);
    dropSilentEnds(heard, beats);
    if (beats.size() < 2) return found;
    const bool isTapped = wish.taps.size() >= leastTaps;
    const std::optional<BarLines> bars =
        isTapped && wish.beatsPerBar ? barLinesFrom(heard, beats, wish) : barLinesOf(signsOf(heard, beats));
    for (std::size_t i = 0; i < beats.size(); ++i) {
        FoundBeat beat;
        beat.time = heard.timeOf(beats[i]);
        if (bars) beat.barPosition = bars->positionOf(static_cast<int>(i));
        beat.confidence = confidenceOf(contrastAt(heard, beats, i), isTapped);
        found.push_back(beat);
    }
    return found;
}

} // namespace earwright
