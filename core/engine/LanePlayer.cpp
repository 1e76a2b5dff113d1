#include "core/engine/LanePlayer.h"

#include <algorithm>
#include <cmath>

namespace earwright {

void LanePlayer::order(Lane* next, std::int64_t atFrame) {
    orderedLane.store(next, std::memory_order_relaxed);
    orderedAt.store(atFrame, std::memory_order_relaxed);
    orders.fetch_add(1, std::memory_order_release);
}

bool LanePlayer::isSettled() const {
    return carriedOut.load(std::memory_order_acquire) == orders.load(std::memory_order_relaxed);
}

void LanePlayer::takeOrder(bool moving, SampleRate rate) {
    if (orders.load(std::memory_order_acquire) == taken) return;
    const std::int64_t at = orderedAt.load(std::memory_order_relaxed);
    const bool fadeOver = moving && active && active->rate() == rate;
    if (fadeOver && !isAtEnd() && active->ring().taken() < at) return;
    const std::int64_t late = fadeOver && at > 0 ? active->ring().taken() - at : 0;
    ++taken;
    fading = fadeOver ? active : nullptr;
    active = orderedLane.load(std::memory_order_relaxed);
    faded = 0;
    fadeFrames = std::max<std::int64_t>(1, std::llround(fadeSeconds * rate.hertz));
    skipLateness(late);
    if (!fading) letGo();
}

void LanePlayer::skipLateness(std::int64_t late) {
    if (late <= 0 || !fading) return;
    const double perFrame = fading->tags().framesPerOutput() / active->tags().framesPerOutput();
    const auto wanted = static_cast<std::int64_t>(std::llround(static_cast<double>(late) * perFrame));
    const auto waiting = static_cast<std::int64_t>(active->ring().readable());
    active->ring().skip(static_cast<std::size_t>(std::clamp<std::int64_t>(waiting - fadeFrames, 0, wanted)));
}

void LanePlayer::letGo() {
    fading = nullptr;
    carriedOut.store(taken, std::memory_order_release);
}

std::size_t LanePlayer::read(std::span<SoundFrame> out) {
    const std::size_t got = active->ring().read(out);
    std::fill(out.begin() + static_cast<std::ptrdiff_t>(got), out.end(), SoundFrame{});
    if (fading) fadeFromPrevious(out);
    return got;
}

void LanePlayer::fadeFromPrevious(std::span<SoundFrame> out) {
    const std::size_t got = fading->ring().read(std::span(previous).first(out.size()));
    std::fill(previous.begin() + static_cast<std::ptrdiff_t>(got), previous.end(), SoundFrame{});
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto share = static_cast<float>(static_cast<double>(std::min(faded + 1, fadeFrames)) /
                                              static_cast<double>(fadeFrames));
        const float in = share * share * (3.0f - 2.0f * share);
        out[i].left = previous[i].left + in * (out[i].left - previous[i].left);
        out[i].right = previous[i].right + in * (out[i].right - previous[i].right);
        out[i].yours = previous[i].yours + in * (out[i].yours - previous[i].yours);
        ++faded;
    }
    if (faded >= fadeFrames) letGo();
}

} // namespace earwright
