// A recording in which every place can be told by ear: what came out of a device is found in it again.
#pragma once

#include "core/sound/Recording.h"

#include <memory>
#include <vector>

namespace earwright::tests {

/// Two minutes at 44.1 kHz of pairs of clicks: one every half second, and another behind it whose distance
/// tells which half second it is. Speed 1.
namespace landmarks {

inline constexpr int rate = 44100;
inline constexpr long spacing = rate / 2;

std::shared_ptr<Recording> recording();

struct Landmark {
    /// Where in the sound that was heard.
    long heard = 0;
    /// Where in the recording.
    long place = 0;
};
/// Clicks of either kind: their frames.
std::vector<long> clicksIn(const std::vector<float>& stereo);
/// The pairs that were heard whole.
std::vector<Landmark> in(const std::vector<float>& stereo);
/// Clicks of either kind before a place of the recording.
long clicksBefore(long place);

} // namespace landmarks
} // namespace earwright::tests
