#include "core/study/BeatReading.h"

#include "core/study/DivisionEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace earwright {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

/// What a division costs by itself, by its number: natural logarithms of how much rarer it is than an
/// undivided beat in solos of blues and bebop (common practice, rounded; halves and triplets are everyday,
/// fives and sevens rare).
constexpr double costOfDivision[] = {0, 0, 0.4, 1.6, 1.6, 5.5, 3.4, 7, 4.6};
/// The same of a beat that three units are counted as (6/8): its eighths are everyday, sixteenths common,
/// duplets and quadruplets rare (common practice, rounded).
constexpr double costOfDivisionOfThree[] = {0, 0, 3.4, 0.4, 4.6, 7, 1.6, 7, 6};
/// Sixteenths where eighths swing: there they are played where triplets are, and three notes in the time of
/// two are the commoner figure (common practice).
constexpr double costOfHalvesOfSwung = 0.8;
/// A line without a note before a note off it: a rest or a tie inside the beat.
constexpr double costOfSilentLine = 0.45;

/// Where the lines of a division are played, in beats, the next beat included.
std::vector<double> playedLines(const Study& frame, const Range<Beats>& beat, int parts) {
    const Study divided = setDivision(frame, beat.begin, static_cast<BeatDivision>(parts));
    std::vector<double> lines;
    for (int line = 0; line < parts; ++line)
        lines.push_back(playedBeat(divided, beat.begin + beat.length() * line / parts));
    lines.push_back(playedBeat(divided, beat.end));
    return lines;
}

double deviation(double played, double line, double spread) {
    const double off = (played - line) / spread;
    return off * off / 2;
}

/// The cheapest rising lines for the onsets, from `first` to `last`; nothing where there are too few of them.
std::optional<BeatReading> assign(const std::vector<double>& onsets, const std::vector<double>& lines,
                                  int first, int last, double spread) {
    const auto count = onsets.size();
    const auto places = static_cast<std::size_t>(std::max(0, last - first + 1));
    if (count > places) return std::nullopt;
    // best[i][j]: the first i onsets on lines before first + j.
    std::vector<std::vector<double>> best(count + 1, std::vector<double>(places + 1, never));
    std::fill(best[0].begin(), best[0].end(), 0.0);
    for (std::size_t i = 1; i <= count; ++i)
        for (std::size_t j = i; j <= places; ++j) {
            const double here = lines[static_cast<std::size_t>(first) + j - 1];
            best[i][j] =
                std::min(best[i][j - 1], best[i - 1][j - 1] + deviation(onsets[i - 1], here, spread));
        }
    BeatReading reading;
    reading.cost = best[count][places];
    for (std::size_t i = count, j = places; i > 0; --j) {
        if (best[i][j - 1] == best[i][j]) continue;
        reading.lines.insert(reading.lines.begin(), first + static_cast<int>(j) - 1);
        --i;
    }
    return reading;
}

/// The simplest division that has all these lines.
int neededParts(const std::vector<int>& lines, int parts) {
    int common = parts;
    for (const int line : lines)
        common = std::gcd(common, line);
    return parts / common;
}

/// Units: how many are counted as the beat, 1 or 3.
double notationCost(const BeatReading& reading, int units, bool swings) {
    const int parts = static_cast<int>(reading.division);
    double cost = (units == 3 ? costOfDivisionOfThree : costOfDivision)[parts] +
                  (swings && parts % 4 == 0 ? costOfHalvesOfSwung : 0);
    for (std::size_t i = 0; i < reading.lines.size(); ++i) {
        const int line = reading.lines[i];
        if (line == 0 || line == parts) continue;
        const bool follows = i > 0 && reading.lines[i - 1] == line - 1;
        // A half of the beat after a silent quarter of it stands where it can be read; so does each third of
        // one that is counted in threes.
        const bool isMainLine = (units == 3 ? 3 : 2) * line % parts == 0;
        if (!follows && !isMainLine) cost += costOfSilentLine;
    }
    return cost;
}

} // namespace

std::vector<BeatReading> readBeat(const Study& frame, const Beats& beat, const std::vector<double>& onsets,
                                  double spread) {
    std::vector<BeatReading> readings;
    if (onsets.empty()) return {BeatReading{}};
    const MeterMap meters = frame.meters();
    const int units = meters.at(meters.barOf(beat)).unitsPerCount();
    const Range<Beats> lasting{beat, meters.nextCount(beat)};
    const Swing swing = frame.page.swingAt(beat);
    const bool swings = units == 1 && !swing.isEven() && swing.noteValue == 8;
    for (int parts = 1; parts <= 8; ++parts) {
        const std::vector<double> lines = playedLines(frame, lasting, parts);
        for (const int first : {0, 1})
            for (const int last : {parts - 1, parts}) {
                auto reading = assign(onsets, lines, first, last, spread);
                if (!reading) continue;
                reading->division = static_cast<BeatDivision>(parts);
                if (neededParts(reading->lines, parts) != parts) continue;
                reading->cost += notationCost(*reading, units, swings);
                const bool isThere =
                    std::any_of(readings.begin(), readings.end(), [&](const BeatReading& other) {
                        return other.division == reading->division && other.lines == reading->lines;
                    });
                if (!isThere) readings.push_back(std::move(*reading));
            }
    }
    return readings;
}

} // namespace earwright
