#include "core/study/BeatReading.h"

#include "core/study/DivisionEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace earwright {

namespace {

/// What a division costs by itself, by its number: natural logarithms of how much rarer it is than an
/// undivided beat in solos of blues and bebop (common practice, rounded; halves and triplets are everyday,
/// fives and sevens rare). Those of the rare ones, costOfSilentLine, costOfUnfinished and costOfChange
/// (RhythmPaths.cpp) were raised by trial on invented lines (tests/benchmarks/RhythmBenchmark.cpp, other
/// seeds than its own): the finer a division, the nearer some line of it is to anything a hand plays.
constexpr double costOfDivision[] = {0, 0, 0.4, 1.3, 1.6, 7, 4.5, 9, 6.5};
/// The same of a beat that three units are counted as (6/8): its eighths are everyday, sixteenths common,
/// duplets and quadruplets rare (common practice, rounded).
constexpr double costOfDivisionOfThree[] = {0, 0, 3.4, 0.4, 4.6, 7, 1.6, 7, 6};
/// Sixteenths where eighths swing: there they are played where triplets are, and three notes in the time of
/// two are the commoner figure (common practice).
constexpr double costOfHalvesOfSwung = 0.8;
/// A line without a note before a note off it: a rest or a tie inside the beat.
constexpr double costOfSilentLine = 1.1;
/// A line without a note behind the last one, in beats of three parts and more: figures that are begun are
/// mostly played to their end, and a lone part of a triplet is rare (common practice).
constexpr double costOfUnfinished = 1.1;

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

/// The simplest division that has all these lines.
int neededParts(const std::vector<int>& lines, int parts) {
    int common = parts;
    for (const int line : lines)
        common = std::gcd(common, line);
    return parts / common;
}

} // namespace

BeatLines::BeatLines(const Study& frame, const Beats& beat) {
    const MeterMap meters = frame.meters();
    lasting = {beat, meters.nextCount(beat)};
    units = meters.at(meters.barOf(beat)).unitsPerCount();
    const Swing swing = frame.page.swingAt(beat);
    swings = units == 1 && !swing.isEven() && swing.noteValue == 8;
    for (int parts = 1; parts <= mostParts; ++parts)
        played[static_cast<std::size_t>(parts - 1)] = playedLines(frame, lasting, parts);
}

double BeatLines::costOf(const BeatReading& reading) const {
    const int parts = static_cast<int>(reading.division);
    double cost = (units == 3 ? costOfDivisionOfThree : costOfDivision)[parts] +
                  (swings && parts % 4 == 0 ? costOfHalvesOfSwung : 0);
    // A half of the beat after a silent quarter of it stands where it can be read; so does each third of one
    // that is counted in threes.
    const auto isMainLine = [&](int line) { return (units == 3 ? 3 : 2) * line % parts == 0; };
    for (std::size_t i = 0; i < reading.lines.size(); ++i) {
        const int line = reading.lines[i];
        if (line == 0 || line == parts) continue;
        const bool follows = i > 0 && reading.lines[i - 1] == line - 1;
        if (!follows && !isMainLine(line)) cost += costOfSilentLine;
    }
    const bool isUnfinished =
        parts > 2 && !isMainLine(reading.lines.back()) && reading.lines.back() < parts - 1;
    return cost + (isUnfinished ? costOfUnfinished : 0);
}

/// All ways to go on from the lines that are taken.
void BeatLines::assign(std::vector<BeatReading>& readings, BeatReading& begun,
                       const std::vector<double>& onsets, double spread) const {
    const int parts = static_cast<int>(begun.division);
    const std::size_t next = begun.lines.size();
    if (next == onsets.size()) {
        if (neededParts(begun.lines, parts) == parts) readings.push_back(begun);
        return;
    }
    const int first = begun.lines.empty() ? 0 : begun.lines.back() + 1;
    const int last = parts - static_cast<int>(onsets.size() - next - 1);
    const std::vector<double>& lines = played[static_cast<std::size_t>(parts - 1)];
    const double before = begun.cost;
    for (int line = first; line <= last; ++line) {
        begun.cost = before + deviation(onsets[next], lines[static_cast<std::size_t>(line)], spread);
        begun.lines.push_back(line);
        assign(readings, begun, onsets, spread);
        begun.lines.pop_back();
    }
    begun.cost = before;
}

std::vector<BeatReading> BeatLines::read(const std::vector<double>& onsets, double spread) const {
    if (onsets.empty()) return {BeatReading{}};
    std::vector<BeatReading> readings;
    for (int parts = 1; parts <= mostParts; ++parts) {
        BeatReading begun;
        begun.division = static_cast<BeatDivision>(parts);
        assign(readings, begun, onsets, spread);
    }
    for (BeatReading& reading : readings) {
        reading.costOfNotation = costOf(reading);
        reading.cost += reading.costOfNotation;
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const BeatReading& a, const BeatReading& b) { return a.cost < b.cost; });
    return readings;
}

} // namespace earwright
