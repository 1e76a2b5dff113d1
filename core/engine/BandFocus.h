// A band of the record heard alone or left out, changed while it sounds.
#pragma once

#include "core/sound/Band.h"
#include "core/sound/BandFilter.h"
#include "core/time/SampleRate.h"

#include <array>
#include <optional>

namespace earwright {

/// Two BandFilters, one a channel, and two that take their place: those run unheard for 20 ms, so that their
/// own beginning has died away, and are faded in over 10 ms. While they are, a new wish waits.
///
/// Threads: the callback.
/// Real time: everything.
class BandFocus {
public:
    void setRate(SampleRate rate);
    /// Nothing lets everything through, untouched.
    void aim(const std::optional<Band>& band);
    /// Filters one frame of the record.
    void apply(float& left, float& right);
    /// Once a block: see BandFilter::settle().
    void settle();

private:
    static constexpr double warmSeconds = 0.02;
    static constexpr double fadeSeconds = 0.01;
    using Pair = std::array<BandFilter, 2>;

    bool isChanging() const { return passed < warmFrames + fadeFrames; }
    void changeTo(const std::optional<Band>& band);

    SampleRate rate{48000};
    std::optional<Band> wanted;
    std::optional<Band> heard;
    Pair now;
    Pair next;
    /// Frames since the last change began.
    int passed = 1 << 20;
    int warmFrames = 0;
    int fadeFrames = 1;
};

} // namespace earwright
