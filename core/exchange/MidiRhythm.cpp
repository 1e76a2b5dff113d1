#include "core/exchange/MidiRhythm.h"

#include <algorithm>
#include <set>

namespace earwright {

namespace {

constexpr std::size_t fewestToTell = 5;
/// Where more of the ticks than this are lines, they tell nothing.
constexpr double mostByChance = 0.7;
constexpr double leastOfWritten = 0.5;

/// Ticks of a quarter that are lines of it; programs round those that lie between two ticks either way.
std::set<std::int64_t> linesOf(std::int64_t ticksPerQuarter) {
    std::set<std::int64_t> lines;
    for (const std::int64_t parts : {8, 12, 5, 7})
        for (std::int64_t line = 0; line < parts; ++line) {
            lines.insert(line * ticksPerQuarter / parts);
            lines.insert((line * ticksPerQuarter + parts - 1) / parts % ticksPerQuarter);
        }
    return lines;
}

} // namespace

double shareOnLines(const std::vector<std::int64_t>& onsets, std::int64_t ticksPerQuarter) {
    const std::set<std::int64_t> lines = linesOf(ticksPerQuarter);
    const double byChance = static_cast<double>(lines.size()) / static_cast<double>(ticksPerQuarter);
    if (onsets.size() < fewestToTell || byChance > mostByChance) return 1;
    const auto isOnLine = [&](std::int64_t onset) {
        return lines.contains((onset % ticksPerQuarter + ticksPerQuarter) % ticksPerQuarter);
    };
    const auto onLines = static_cast<double>(std::count_if(onsets.begin(), onsets.end(), isOnLine));
    const double share = onLines / static_cast<double>(onsets.size());
    return std::max(0.0, (share - byChance) / (1 - byChance));
}

MidiRhythm fittingRhythm(double shareOnLines) {
    return shareOnLines < leastOfWritten ? MidiRhythm::ByHand : MidiRhythm::Ticks;
}

} // namespace earwright
