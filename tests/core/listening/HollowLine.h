// A line whose sound differs from what is usual, so that it has to be learned.
#pragma once

#include "core/listening/PassageEvidence.h"
#include "tests/core/listening/SyntheticSound.h"

#include <cstddef>
#include <vector>

namespace earwright::tests {

/// Three times from C3 to E♭4 and back. Of partials 1 to 10, falling off as 1/h, the first is 28 dB weaker
/// than the second, as of a low voice through a small loudspeaker: a note may be taken for one an octave
/// higher.
struct HollowLine {
    static constexpr Range<Seconds> passage{Seconds(0), Seconds(15.5)};
    std::vector<int> pitches;
    std::vector<Range<Seconds>> spans;
    AnalysisSound sound{silence(passage.end), {}};

    HollowLine();
    PassageEvidence evidence() const;
    /// How many rows are strongest at the pitch of their note.
    int named(const std::vector<PitchRow>& rows) const;
};

} // namespace earwright::tests
