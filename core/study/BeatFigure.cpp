#include "core/study/BeatFigure.h"

#include <array>
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

/// The simplest division that has all these lines.
int neededParts(const std::vector<int>& lines, int parts) {
    int common = parts;
    for (const int line : lines)
        common = std::gcd(common, line);
    return parts / common;
}

double costOf(const std::vector<int>& lines, int parts, BeatKind kind) {
    const bool isOfThree = kind == BeatKind::OfThree;
    double cost = (isOfThree ? costOfDivisionOfThree : costOfDivision)[parts] +
                  (kind == BeatKind::Swung && parts % 4 == 0 ? costOfHalvesOfSwung : 0);
    // A half of the beat after a silent quarter of it stands where it can be read; so does each third of one
    // that is counted in threes.
    const auto isMainLine = [&](int line) { return (isOfThree ? 3 : 2) * line % parts == 0; };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const int line = lines[i];
        if (line == 0 || line == parts) continue;
        const bool follows = i > 0 && lines[i - 1] == line - 1;
        if (!follows && !isMainLine(line)) cost += costOfSilentLine;
    }
    const bool isUnfinished = parts > 2 && !isMainLine(lines.back()) && lines.back() < parts - 1;
    return cost + (isUnfinished ? costOfUnfinished : 0);
}

using FiguresByCount = std::array<std::vector<BeatFigure>, mostBeatParts + 2>;

/// All ways to go on from the lines that are taken.
void addAll(FiguresByCount& figures, std::vector<int>& begun, int parts, BeatKind kind) {
    if (!begun.empty() && neededParts(begun, parts) == parts)
        figures[begun.size()].push_back(
            {static_cast<BeatDivision>(parts), begun, costOf(begun, parts, kind)});
    for (int line = begun.empty() ? 0 : begun.back() + 1; line <= parts; ++line) {
        begun.push_back(line);
        addAll(figures, begun, parts, kind);
        begun.pop_back();
    }
}

FiguresByCount allFigures(BeatKind kind) {
    FiguresByCount figures;
    for (int parts = 1; parts <= mostBeatParts; ++parts) {
        std::vector<int> begun;
        addAll(figures, begun, parts, kind);
    }
    return figures;
}

} // namespace

const std::vector<BeatFigure>& beatFigures(std::size_t onsets, BeatKind kind) {
    static const std::array<FiguresByCount, 3> all{allFigures(BeatKind::Plain), allFigures(BeatKind::Swung),
                                                   allFigures(BeatKind::OfThree)};
    const FiguresByCount& figures = all[static_cast<std::size_t>(kind)];
    // No onsets have no figures, nor have too many.
    return figures[onsets < figures.size() ? onsets : 0];
}

} // namespace earwright
