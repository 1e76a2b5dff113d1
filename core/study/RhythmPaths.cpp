#include "core/study/RhythmPaths.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>
#include <vector>

namespace earwright {

namespace {

/// Another division than the beat before had: lines go on as they went more often than not (common practice).
constexpr double costOfChange = 1.0;
/// Three notes over two beats, for both beats together: nearly as rare as six in a beat (BeatFigure.cpp),
/// but nothing in it is left out or unfinished, as it would be beat by beat (common practice, rounded). By
/// trial: less of it makes triplets of eighths that a shaky hand plays
/// (tests/benchmarks/RhythmBenchmark.cpp).
constexpr double costOfTripletOverTwo = 4;
/// The same of three over four, and of five over two, which is as rare as five in a beat. Costlier ones are
/// read less often where they are meant, cheaper fives where they are not (the same benchmark).
constexpr double costOfTripletOverFour = 4;
constexpr double costOfQuintupletOverTwo = 7;
constexpr double never = std::numeric_limits<double>::infinity();

/// A tuplet over several beats, as the figures of the two neighbouring beats that hold its notes but the
/// first, which is on a beat: it may be tied or a rest, and is in the beat before where it came early; so may
/// what comes behind the tuplet be in its last beat.
struct SpanningTuplet {
    BeatDivision division;
    std::vector<std::vector<int>> begins;
    std::vector<std::vector<int>> ends;

    bool isIn(const BeatFigure& first, const BeatFigure& second) const {
        return first.division == division && second.division == division &&
               std::ranges::find(begins, first.lines) != begins.end() &&
               std::ranges::find(ends, second.lines) != ends.end();
    }
};

const SpanningTuplet tripletOverTwo{BeatDivision::Three, {{0, 2}, {2}}, {{1}, {1, 3}}};
const SpanningTuplet quintupletOverTwo{BeatDivision::Five, {{0, 2, 4}, {2, 4}}, {{1, 3}, {1, 3, 5}}};
/// Of four beats the second and the third.
const SpanningTuplet tripletOverFour{BeatDivision::Three, {{1}}, {{2}}};

/// Between two beats, whatever their figures.
class Joint {
public:
    Joint(const BeatChoice& before, const BeatChoice& now)
        : meets(now.beat.begin == before.beat.end),
          isEven(meets && now.beat.length() == before.beat.length()),
          maySpanTwo(isEven && before.mayBeginTupletOverTwo),
          maySpanFour(isEven && before.mayHoldTripletOverFour) {}

    /// Of one figure behind another; infinite where they put two notes on one line.
    double cost(const BeatFigure& last, const BeatFigure& next) const {
        if (meets && last.reachesNextBeat() && next.beginsOnBeat()) return never;
        // Where another beat is counted, its division is another one anyway.
        if (!isEven) return 0;
        if (const double whole = costOfTuplet(last, next); whole > 0) return whole - last.cost - next.cost;
        // What is undivided goes with everything.
        const bool isPlain = last.division == BeatDivision::One || next.division == BeatDivision::One;
        return last.division == next.division || isPlain ? 0 : costOfChange;
    }

    /// e to the minus cost.
    double weight(const BeatFigure& last, const BeatFigure& next) const {
        static const double ofChange = std::exp(-costOfChange);
        const double costs = cost(last, next);
        if (costs == 0) return 1;
        return costs == costOfChange ? ofChange : std::exp(-costs);
    }

private:
    /// What both beats cost as notation where one tuplet spans them; else 0.
    double costOfTuplet(const BeatFigure& last, const BeatFigure& next) const {
        if (maySpanTwo && tripletOverTwo.isIn(last, next)) return costOfTripletOverTwo;
        if (maySpanTwo && quintupletOverTwo.isIn(last, next)) return costOfQuintupletOverTwo;
        return maySpanFour && tripletOverFour.isIn(last, next) ? costOfTripletOverFour : 0;
    }

    bool meets;
    bool isEven;
    bool maySpanTwo;
    bool maySpanFour;
};

/// Numbers known by their logarithms: how they go into each other's sums, the greatest taken out. One that is
/// e to the 745 smaller than the greatest counts as none.
class Scaled {
public:
    explicit Scaled(const std::vector<double>& logs) {
        for (const double log : logs)
            most = std::max(most, log);
        for (const double log : logs)
            shares.push_back(most == -never ? 0 : std::exp(log - most));
    }

    /// The logarithm of the sum of all, each times its weight.
    template <typename Weight>
    double logSum(const Weight& weight) const {
        double sum = 0;
        for (std::size_t i = 0; i < shares.size(); ++i)
            sum += shares[i] * weight(i);
        return sum > 0 ? most + std::log(sum) : -never;
    }

private:
    double most = -never;
    std::vector<double> shares;
};

using Logs = std::vector<std::vector<double>>;

/// For each reading the sum of all ways that end with it, itself included.
Logs sumsUpTo(const std::vector<BeatChoice>& choices) {
    Logs sums(choices.size());
    if (choices.empty()) return sums;
    for (const BeatReading& reading : choices.front().readings)
        sums.front().push_back(-reading.cost);
    for (std::size_t beat = 1; beat < choices.size(); ++beat) {
        const BeatChoice& before = choices[beat - 1];
        const Joint joint(before, choices[beat]);
        const Scaled ways(sums[beat - 1]);
        for (const BeatReading& reading : choices[beat].readings) {
            const auto weight = [&](std::size_t i) {
                return joint.weight(before.readings[i].figure, reading.figure);
            };
            sums[beat].push_back(ways.logSum(weight) - reading.cost);
        }
    }
    return sums;
}

/// For each reading the sum of all ways on from it, itself not included.
Logs sumsFrom(const std::vector<BeatChoice>& choices) {
    Logs sums(choices.size());
    if (choices.empty()) return sums;
    sums.back().assign(choices.back().readings.size(), 0);
    for (std::size_t beat = choices.size() - 1; beat-- > 0;) {
        const BeatChoice& behind = choices[beat + 1];
        const Joint joint(choices[beat], behind);
        std::vector<double> logs;
        for (std::size_t i = 0; i < behind.readings.size(); ++i)
            logs.push_back(sums[beat + 1][i] - behind.readings[i].cost);
        const Scaled ways(logs);
        for (const BeatReading& reading : choices[beat].readings) {
            const auto weight = [&](std::size_t i) {
                return joint.weight(reading.figure, behind.readings[i].figure);
            };
            sums[beat].push_back(ways.logSum(weight));
        }
    }
    return sums;
}

bool isCheaper(const RhythmPath& a, const RhythmPath& b) {
    return a.cost < b.cost;
}

/// Those of the paths that can go on with a reading, as many as are wanted at the end: more can never be
/// needed of one reading.
std::vector<RhythmPath> goneOn(const std::vector<RhythmPath>& paths, const BeatChoice& before,
                               const BeatChoice& now, std::size_t reading, std::size_t wanted) {
    const Joint joint(before, now);
    const BeatReading& next = now.readings[reading];
    std::vector<std::pair<double, std::size_t>> ways; // what it costs, and the path that goes on
    for (std::size_t from = 0; from < paths.size(); ++from) {
        const BeatReading& last = before.readings[paths[from].taken.back()];
        const double cost = paths[from].cost + next.cost + joint.cost(last.figure, next.figure);
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
    if (choices.empty()) return {{}};
    std::vector<RhythmPath> paths;
    for (std::size_t i = 0; i < choices.front().readings.size(); ++i)
        paths.push_back({choices.front().readings[i].cost, {i}});
    for (std::size_t beat = 1; beat < choices.size(); ++beat) {
        std::vector<RhythmPath> longer;
        for (std::size_t i = 0; i < choices[beat].readings.size(); ++i) {
            std::vector<RhythmPath> here = goneOn(paths, choices[beat - 1], choices[beat], i, wanted);
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
    all.logSum = Scaled(before.back()).logSum([](std::size_t) { return 1.0; });
    for (std::size_t beat = 0; beat < choices.size(); ++beat) {
        all.shares.emplace_back();
        for (std::size_t i = 0; i < choices[beat].readings.size(); ++i)
            all.shares.back().push_back(
                all.logSum == -never ? 0 : std::exp(before[beat][i] + behind[beat][i] - all.logSum));
    }
    return all;
}

} // namespace earwright
