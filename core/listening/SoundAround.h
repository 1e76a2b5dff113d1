// The sound around a place, faded in and out.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace earwright {

/// Cuts out stretches of one length under a Hann window, which is symmetric about the stretch's middle.
///
/// Threads: share it const.
class SoundAround {
public:
    /// In samples.
    explicit SoundAround(std::size_t length);

    std::size_t length() const { return weights.size(); }
    /// The stretch with sample `centre` in its middle; what lies outside the sound is silence. Requires:
    /// `out` has as many samples as the stretch.
    void cut(std::span<const float> sound, std::ptrdiff_t centre, std::span<float> out) const;

private:
    std::vector<float> weights;
};

} // namespace earwright
