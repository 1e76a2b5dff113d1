// The weights of a Hann window of any length.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// Weights that rise from nothing to the middle and fall again, adding up to two: a sine of amplitude 1 then
/// has magnitude 1 in a transform, half of it in its line.
///
/// Threads: one thread at a time an object.
class HannWindow {
public:
    /// The weights of a length. Those of two lengths are kept, for spans whose attack and sustained part take
    /// turns. Requires: length >= 2. They stay valid through the next call.
    std::span<const float> of(std::size_t length);

private:
    std::vector<float> latest;
    std::vector<float> before;
};

} // namespace earwright
