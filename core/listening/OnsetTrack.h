// Where notes begin, and which: a row of log probabilities every ten milliseconds.
#pragma once

#include "core/listening/LogAxis.h"
#include "core/listening/PitchRow.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// How clearly a note begins, and where.
struct PlacedOnset {
    /// Log probability.
    float log = 0;
    Seconds time;
};

/// Onset evidence over a passage.
///
/// Each row holds log probabilities, adding up to one, that at this place a note of pitch i begins
/// (i < pitchCount), or that none does (noOnset).
/// Threads: a value; share it const.
class OnsetTrack {
public:
    static constexpr std::size_t noOnset = pitchCount;
    using Row = std::array<float, pitchCount + 1>;

    OnsetTrack(Seconds firstPlace, Seconds placeStep, std::vector<Row> allRows);

    std::size_t size() const { return rows.size(); }
    bool isEmpty() const { return rows.empty(); }
    Seconds step() const { return spacing; }
    Seconds timeOf(std::size_t place) const;
    /// The place nearest to a time; the first or last one for times outside. Requires: !isEmpty().
    std::size_t nearest(Seconds time) const;
    const Row& operator[](std::size_t place) const { return rows[place]; }
    /// The strongest onset of a pitch (counted from lowestHeardMidi) at the places nearest to a range, both
    /// ends among them; nothing where the track has none there.
    std::optional<PlacedOnset> strongest(std::size_t pitch, const Range<Seconds>& range) const;
    /// log(1 − probability of no onset).
    float anyOnset(std::size_t place) const;

private:
    Seconds first;
    Seconds spacing;
    std::vector<Row> rows;
};

} // namespace earwright
