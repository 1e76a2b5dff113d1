// Where notes begin, and which: a row of log probabilities every ten milliseconds.
#pragma once

#include "core/listening/LogAxis.h"
#include "core/listening/PitchRow.h"
#include "core/time/Seconds.h"

#include <array>
#include <cstddef>
#include <vector>

namespace earwright {

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
    /// log(1 − probability of no onset).
    float anyOnset(std::size_t place) const;

private:
    Seconds first;
    Seconds spacing;
    std::vector<Row> rows;
};

} // namespace earwright
