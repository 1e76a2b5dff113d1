// Where a loop's click is heard, pass after pass.
#pragma once

#include "core/time/Frames.h"
#include "tests/core/engine/HeldRecording.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <vector>

namespace earwright::tests {

/// Plays 10,000 passes of a loop with one click in it, and tells by how many frames of output the click in
/// one of them is off at most. `click`: behind the loop's start, in frames of the recording, as `loop` is;
/// all at the output's rate. Requires: the part begins at the loop's start.
template <class Part>
std::int64_t worstOverTenThousandPasses(Part& part, Frames loop, Frames click, double speed) {
    std::vector<float> pass;
    std::int64_t done = 0;
    std::int64_t worst = 0;
    for (std::int64_t number = 0; number < 10000; ++number) {
        const auto at = [&](std::int64_t frames) { return static_cast<double>(frames) / speed; };
        const auto end = static_cast<std::int64_t>(std::ceil(at((number + 1) * loop.value) - 1e-6));
        pass.resize(static_cast<std::size_t>(end - done));
        part.produce(pass);
        const double due = at(number * loop.value + click.value) - static_cast<double>(done);
        const long heard = loudestIn(pass, 0, static_cast<long>(pass.size()));
        worst = std::max<std::int64_t>(worst, std::abs(heard - std::lround(due)));
        done = end;
    }
    return worst;
}

} // namespace earwright::tests
