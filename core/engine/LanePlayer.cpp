#include "core/engine/LanePlayer.h"

#include "core/engine/CrossFade.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

void LanePlayer::order(Lane* next, std::int64_t atFrame, Turn turn) {
    assert(waiting() < mostWaiting);
    Order& order = orderAfter(ordered);
    order.lane.store(next, std::memory_order_relaxed);
    order.at.store(atFrame, std::memory_order_relaxed);
    order.turn.store(turn, std::memory_order_relaxed);
    order.state.store(2 * ++numbered + 1, std::memory_order_release);
    ++ordered;
}

bool LanePlayer::withdraw() {
    if (isSettled()) return false;
    Order& order = orderAfter(ordered - 1);
    std::uint64_t seen = order.state.load(std::memory_order_acquire);
    if (seen % 2 == 0 || !order.state.compare_exchange_strong(seen, seen - 1, std::memory_order_acq_rel))
        return false;
    --ordered;
    return true;
}

void LanePlayer::takeOrder(bool moving, SampleRate rate) {
    // Where nothing sounds, nobody hears the rest of a fade.
    if (fading && !moving) letGo();
    // One after the other.
    if (fading) return;
    Order& order = orderAfter(taken);
    std::uint64_t seen = order.state.load(std::memory_order_acquire);
    if (seen % 2 == 0) return;
    const std::int64_t at = order.at.load(std::memory_order_relaxed);
    const bool exact = order.turn.load(std::memory_order_relaxed) == Turn::Exact;
    const bool fadeOver = moving && active && active->rate() == rate;
    if (active && active->ring().taken() < at && (exact || (fadeOver && !isAtEnd()))) return;
    Lane* next = order.lane.load(std::memory_order_relaxed);
    // Taken back in this moment: what was just read may be of the next order.
    if (!order.state.compare_exchange_strong(seen, seen - 1, std::memory_order_acq_rel)) return;
    const Lane* before = active;
    ++taken;
    fading = fadeOver ? active : nullptr;
    active = next;
    faded = 0;
    const bool isSeam = active->ownFrom() > 0;
    fadeFrames =
        std::max<std::int64_t>(1, std::llround((isSeam ? LoopSeam::fadeSeconds : fadeSeconds) * rate.hertz));
    if (before && at > 0 && (fadeOver || exact)) skipLateness(*before, before->ring().taken() - at);
    if (!fading) letGo();
}

std::int64_t LanePlayer::framesToNextChange() const {
    auto left = static_cast<std::int64_t>(partFrames);
    const auto until = [&left](std::int64_t frames) {
        if (frames > 0) left = std::min(left, frames);
    };
    const Order& next = orderAfter(taken);
    if (active && next.isWaiting()) until(next.at.load(std::memory_order_relaxed) - active->ring().taken());
    // So that what is missing begins with a part of its own, and the log has it to the frame.
    if (active) until(static_cast<std::int64_t>(active->ring().readable()));
    if (fading) until(fadeFrames - faded);
    if (fading) until(active->ownFrom() - active->ring().taken());
    return left;
}

void LanePlayer::skipLateness(const Lane& before, std::int64_t late) {
    if (late <= 0) return;
    // Where the record goes on it has gone on at the old speed; a lead just passes.
    const double perFrame = before.tags().ratioTo(active->tags());
    const std::int64_t inLead = std::min(late, active->tags().lead());
    const std::int64_t wanted = inLead + std::llround(static_cast<double>(late - inLead) * perFrame);
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
        const auto in = static_cast<float>(
            fadeIn(static_cast<double>(std::min(faded + 1, fadeFrames)) / static_cast<double>(fadeFrames)));
        out[i].left = previous[i].left + in * (out[i].left - previous[i].left);
        out[i].right = previous[i].right + in * (out[i].right - previous[i].right);
        out[i].yours = previous[i].yours + in * (out[i].yours - previous[i].yours);
        out[i].clicks = previous[i].clicks + in * (out[i].clicks - previous[i].clicks);
        out[i].counted = previous[i].counted + in * (out[i].counted - previous[i].counted);
        ++faded;
    }
    // Until then the lane before counts as heard.
    if (faded >= fadeFrames && active->ring().taken() >= active->ownFrom()) letGo();
}

} // namespace earwright
