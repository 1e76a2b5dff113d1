#include "core/study/BeatReading.h"

#include "core/study/DivisionEdits.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <optional>

namespace earwright {

namespace {

/// Readings of a beat that cost so much more than the cheapest are not worth a look: one in 20,000.
constexpr double furthestCost = 10;
constexpr std::size_t mostReadings = 16;

/// Where the lines of a division are played, in beats, the next beat included.
std::vector<double> playedLines(const Study& frame, const Range<Beats>& beat, int parts) {
    const Study divided = setDivision(frame, beat.begin, static_cast<BeatDivision>(parts));
    std::vector<double> lines;
    for (int line = 0; line < parts; ++line)
        lines.push_back(playedBeat(divided, beat.begin + beat.length() * line / parts));
    lines.push_back(playedBeat(divided, beat.end));
    return lines;
}

BeatKind kindOf(const Study& frame, const MeterMap& meters, const Beats& beat) {
    if (meters.at(meters.barOf(beat)).unitsPerCount() == 3) return BeatKind::OfThree;
    const Swing swing = frame.page.swingAt(beat);
    return !swing.isEven() && swing.noteValue == 8 ? BeatKind::Swung : BeatKind::Plain;
}

/// Which of the lines around the beat a figure touches: four kinds.
std::size_t touchOf(const BeatFigure& figure) {
    return (figure.beginsOnBeat() ? 1u : 0u) + (figure.reachesNextBeat() ? 2u : 0u);
}

/// The places of those that are worth a look, cheapest first.
std::vector<std::size_t> worthALook(const std::vector<BeatFigure>& figures,
                                    const std::vector<double>& costs) {
    std::array<std::optional<std::size_t>, 4> firsts;
    for (std::size_t i = 0; i < figures.size(); ++i) {
        auto& first = firsts[touchOf(figures[i])];
        if (!first || costs[i] < costs[*first]) first = i;
    }
    const double limit = *std::min_element(costs.begin(), costs.end()) + furthestCost;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < figures.size(); ++i)
        if (costs[i] <= limit || firsts[touchOf(figures[i])] == i) order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return costs[a] < costs[b]; });
    std::vector<std::size_t> kept;
    for (const std::size_t i : order)
        if (kept.size() < mostReadings || firsts[touchOf(figures[i])] == i) kept.push_back(i);
    return kept;
}

} // namespace

BeatLines::BeatLines(const Study& frame, const Beats& beat) {
    const MeterMap meters = frame.meters();
    lasting = {beat, meters.nextCount(beat)};
    kind = kindOf(frame, meters, beat);
    for (int parts = 1; parts <= mostBeatParts; ++parts)
        played[static_cast<std::size_t>(parts - 1)] = playedLines(frame, lasting, parts);
}

/// Of each figure, with how far the onsets are from its lines.
std::vector<double> BeatLines::costs(const std::vector<BeatFigure>& figures,
                                     const std::vector<double>& onsets, double spread) const {
    std::vector<double> sums;
    sums.reserve(figures.size());
    for (const BeatFigure& figure : figures) {
        double sum = figure.cost;
        for (std::size_t i = 0; i < onsets.size(); ++i) {
            const double off = (onsets[i] - lineAt(figure.division, figure.lines[i])) / spread;
            sum += off * off / 2;
        }
        sums.push_back(sum);
    }
    return sums;
}

std::vector<BeatReading> BeatLines::read(const std::vector<double>& onsets, double spread) const {
    const std::vector<BeatFigure>& figures = beatFigures(onsets.size(), kind);
    std::vector<BeatReading> readings;
    if (figures.empty()) return readings;
    const std::vector<double> sums = costs(figures, onsets, spread);
    for (const std::size_t i : worthALook(figures, sums))
        readings.push_back({figures[i], sums[i]});
    return readings;
}

} // namespace earwright
