// One counted beat of free onsets read in one division: which line each onset belongs to, and what that
// costs.
#pragma once

#include "core/study/BeatFigure.h"
#include "core/study/Study.h"
#include "core/time/Range.h"

#include <array>
#include <cstddef>
#include <vector>

namespace earwright {

/// How the onsets of one beat would be written.
struct BeatReading {
    /// For each onset, the line it falls on; what that costs as notation.
    BeatFigure figure;
    /// The latter, and half the squared deviations in units of the spread.
    double cost = 0;
};

/// The lines of a counted beat in all its divisions, 1 to 8, where they are played. Threads: a value.
class BeatLines {
public:
    /// Beat: where a counted beat of the frame begins. Frame: meter and page of the piece; its notes are not
    /// read.
    BeatLines(const Study& frame, const Beats& beat);

    const Range<Beats>& beat() const { return lasting; }
    /// Where a line of a division is played, in beats; 0 is the beat, as many as parts the next.
    double lineAt(BeatDivision division, int line) const {
        return played[static_cast<std::size_t>(division) - 1][static_cast<std::size_t>(line)];
    }

    /// The readings that are worth a look, cheapest first, of all figures that the onsets can be: at most 16
    /// that cost little more than the cheapest. Of those that touch the line before and the line behind, or
    /// do not, the first is there whatever it costs, so that any two beats can follow each other. None for
    /// more onsets than a beat in eight has lines.
    ///
    /// Onsets: beats from bar 1 as played, rising, all within the beat. Spread: standard deviation of an
    /// onset, in beats, greater than 0.
    std::vector<BeatReading> read(const std::vector<double>& onsets, double spread) const;

private:
    std::vector<double> costs(const std::vector<BeatFigure>& figures, const std::vector<double>& onsets,
                              double spread) const;

    Range<Beats> lasting;
    /// By the number of parts less one; the next beat included.
    std::array<std::vector<double>, mostBeatParts> played;
    BeatKind kind = BeatKind::Plain;
};

} // namespace earwright
