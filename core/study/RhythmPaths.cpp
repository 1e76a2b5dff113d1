#include "core/study/RhythmPaths.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace earwright {

namespace {

/// Another division than the beat before had: lines go on as they went more often than not (common practice).
constexpr double costOfChange = 1.0;
constexpr double never = std::numeric_limits<double>::infinity();

/// Of one reading behind another; infinite where they put two notes on one line.
double costBetween(const BeatChoice& before, const BeatReading& last, const BeatChoice& now,
                   const BeatReading& next) {
    const bool meets = now.beat.begin == before.beat.end;
    if (meets && last.reachesNextBeat() && next.beginsOnBeat()) return never;
    // Where another beat is counted, its division is another one anyway.
    if (!meets || now.beat.length() != before.beat.length()) return 0;
    // What is undivided goes with everything.
    const bool isPlain = last.division == BeatDivision::One || next.division == BeatDivision::One;
    return last.division == next.division || isPlain ? 0 : costOfChange;
}

double logSumOf(const std::vector<double>& logs) {
    const double most = logs.empty() ? -never : *std::max_element(logs.begin(), logs.end());
    if (most == -never) return -never;
    double sum = 0;
    for (const double each : logs)
        sum += std::exp(each - most);
    return most + std::log(sum);
}

using Logs = std::vector<std::vector<double>>;

/// For each reading the sum of all ways that end with it, itself included.
Logs sumsUpTo(const std::vector<BeatChoice>& choices) {
    Logs sums(choices.size());
    for (std::size_t beat = 0; beat < choices.size(); ++beat)
        for (const BeatReading& reading : choices[beat].readings) {
            std::vector<double> ways{0};
            if (beat > 0) {
                ways.clear();
                const BeatChoice& before = choices[beat - 1];
                for (std::size_t i = 0; i < before.readings.size(); ++i)
                    ways.push_back(sums[beat - 1][i] -
                                   costBetween(before, before.readings[i], choices[beat], reading));
            }
            sums[beat].push_back(logSumOf(ways) - reading.cost);
        }
    return sums;
}

/// For each reading the sum of all ways on from it, itself not included.
Logs sumsFrom(const std::vector<BeatChoice>& choices) {
    Logs sums(choices.size());
    for (std::size_t beat = choices.size(); beat-- > 0;)
        for (const BeatReading& reading : choices[beat].readings) {
            std::vector<double> ways{0};
            if (beat + 1 < choices.size()) {
                ways.clear();
                const BeatChoice& behind = choices[beat + 1];
                for (std::size_t i = 0; i < behind.readings.size(); ++i)
                    ways.push_back(sums[beat + 1][i] - behind.readings[i].cost -
                                   costBetween(choices[beat], reading, behind, behind.readings[i]));
            }
            sums[beat].push_back(logSumOf(ways));
        }
    return sums;
}

bool isCheaper(const RhythmPath& a, const RhythmPath& b) {
    return a.cost < b.cost;
}

/// Those of the paths that can go on with a reading, as many as are wanted at the end: more can never be
/// needed of one reading.
std::vector<RhythmPath> goneOn(const std::vector<RhythmPath>& paths, const std::vector<BeatChoice>& choices,
                               std::size_t beat, std::size_t reading, std::size_t wanted) {
    const BeatReading& next = choices[beat].readings[reading];
    std::vector<std::pair<double, std::size_t>> ways; // what it costs, and the path that goes on
    for (std::size_t from = 0; from < paths.size(); ++from) {
        double cost = paths[from].cost + next.cost;
        if (beat > 0)
            cost += costBetween(choices[beat - 1], choices[beat - 1].readings[paths[from].taken.back()],
                                choices[beat], next);
        if (cost != never) ways.emplace_back(cost, from);
    }
    std::sort(ways.begin(), ways.end());
    if (ways.size() > wanted) ways.resize(wanted);
    std::vector<RhythmPath> longer;
    for (const auto& [cost, from] : ways) {
        longer.push_back({cost, paths[from].taken});
        longer.back().taken.push_back(reading);
    }
    return longer;
}

} // namespace

std::vector<RhythmPath> cheapestPaths(const std::vector<BeatChoice>& choices, std::size_t wanted) {
    std::vector<RhythmPath> paths{{}};
    for (std::size_t beat = 0; beat < choices.size(); ++beat) {
        std::vector<RhythmPath> longer;
        for (std::size_t i = 0; i < choices[beat].readings.size(); ++i) {
            std::vector<RhythmPath> here = goneOn(paths, choices, beat, i, wanted);
            std::move(here.begin(), here.end(), std::back_inserter(longer));
        }
        paths = std::move(longer);
    }
    std::stable_sort(paths.begin(), paths.end(), isCheaper);
    return paths;
}

AllPaths allPaths(const std::vector<BeatChoice>& choices) {
    if (choices.empty()) return {};
    const Logs before = sumsUpTo(choices);
    const Logs behind = sumsFrom(choices);
    AllPaths all;
    all.logSum = logSumOf(before.back());
    for (std::size_t beat = 0; beat < choices.size(); ++beat) {
        all.shares.emplace_back();
        for (std::size_t i = 0; i < choices[beat].readings.size(); ++i)
            all.shares.back().push_back(
                all.logSum == -never ? 0 : std::exp(before[beat][i] + behind[beat][i] - all.logSum));
    }
    return all;
}

} // namespace earwright
