#include "core/engine/Mixer.h"

#include "core/engine/RealTimeSpan.h"

#include <algorithm>
#include <cmath>

namespace earwright {

Mixer::Mixer() {
    setRate(SampleRate{48000});
}

void Mixer::setRate(SampleRate newRate) {
    rate = newRate;
    mixdown.setRate(rate);
    auditioned.setRate(rate);
    auditionGain.setFrames(static_cast<float>(0.1 * rate.hertz));
}

void Mixer::setPlaying(bool playing) {
    // The count in the upper bits tells render() that a wish came in between.
    unsigned seen = intent.load(std::memory_order_relaxed);
    while (!intent.compare_exchange_weak(seen, ((seen >> 1) + 1) << 1 | (playing ? 1u : 0u),
                                         std::memory_order_acq_rel))
        ;
}

void Mixer::setBand(const std::optional<Band>& band) {
    Edges edges{0, 0};
    if (band) {
        const Band kept = band->playable();
        edges = {static_cast<float>(kept.remove ? -kept.lowHertz : kept.lowHertz),
                 static_cast<float>(kept.highHertz)};
    }
    bandWanted.store(edges, std::memory_order_relaxed);
}

std::optional<Band> Mixer::bandNow() const {
    const Edges edges = bandWanted.load(std::memory_order_relaxed);
    if (edges.low == 0) return std::nullopt;
    return Band{std::abs(edges.low), edges.high, edges.low < 0};
}

void Mixer::setTradeStart(std::int64_t pass, std::uint64_t sinceWish) {
    const std::uint64_t now = tradeStart.load(std::memory_order_relaxed);
    const std::uint64_t odd = pass % 2 != 0 ? 1 : 0;
    const bool isHeard = sinceWish > now / 4 && soundingWish.load(std::memory_order_relaxed) >= now / 4;
    const std::uint64_t oddBefore = isHeard ? now % 2 : now / 2 % 2;
    tradeStart.store(sinceWish * 4 + oddBefore * 2 + odd, std::memory_order_relaxed);
}

bool Mixer::isYoursTurn(std::int64_t pass, std::uint64_t laneWish) const {
    const std::uint64_t start = tradeStart.load(std::memory_order_relaxed);
    const std::uint64_t odd = laneWish >= start / 4 ? start % 2 : start / 2 % 2;
    return hearingWanted.load(std::memory_order_relaxed) == Hearing::Trade && (pass % 2 != 0) != (odd != 0);
}

void Mixer::render(std::span<float> stereo, SampleRate newRate, std::int64_t heardNanoseconds,
                   bool newStream) {
    const RealTimeSpan realTime;
    if (newRate != rate) setRate(newRate);
    if (newStream) log.restartClock();
    StringGesture gesture;
    while (auditions.read({&gesture, 1}) == 1)
        auditioned.play(gesture);
    const OutputFrames first = rendered;
    while (!stereo.empty()) {
        const std::size_t part =
            std::min(stereo.size(), 2 * static_cast<std::size_t>(player.framesToNextChange()));
        renderPart(stereo.first(part));
        stereo = stereo.subspan(part);
    }
    log.tick(first, heardNanoseconds, rate.hertz, rendered);
}

bool Mixer::wantsToMove(bool moves) {
    unsigned seen = intent.load(std::memory_order_acquire);
    const bool playing = (seen & 1u) != 0 || holdWanted.load(std::memory_order_acquire);
    // While a pause fades out, a new place waits, so that it is not eaten into before it is heard.
    if (playing || !moves) player.takeOrder(moves, rate);
    const Lane* lane = player.lane();
    const bool isAnswered = lane && lane->wish() >= requiredWish.load(std::memory_order_acquire);
    const bool atEnd = lane && player.isAtEnd();
    standsAtEnd.store(atEnd, std::memory_order_release);
    if (!playing || !player.canPlay(rate)) return false;
    if (!atEnd) return moves || isAnswered;
    // Unless another wish came in meanwhile, the end of what is played is a pause.
    if (isAnswered) intent.compare_exchange_strong(seen, ((seen >> 1) + 1) << 1, std::memory_order_acq_rel);
    return false;
}

void Mixer::renderPart(std::span<float> stereo) {
    const std::size_t count = stereo.size() / 2;
    const bool moves = !mixdown.isSilent();
    const bool toMove = wantsToMove(moves);
    mixdown.setAudible(toMove);
    const bool moving = player.canPlay(rate) && (toMove || moves);
    // Where the sound is not ready the ear stands still.
    noteHeard(moving && player.lane()->ring().readable() > 0);
    aimGains();
    const std::span<SoundFrame> part = std::span(frames).first(count);
    std::fill(part.begin(), part.end(), SoundFrame{});
    if (moving) readLanes(part);

    const std::span<float> tried = std::span(auditionBlock).first(count);
    std::fill(tried.begin(), tried.end(), 0.0f);
    auditioned.render(tried);
    auditionGain.aimAt(match.load(std::memory_order_relaxed));
    for (float& sample : tried)
        sample *= auditionGain.next();
    marked.add(tried, rendered, rate);
    monitored->add(tried, rate);
    const float loudest = mixdown.mix(part, tried, stereo);
    if (loudest > peak.load(std::memory_order_relaxed)) peak.store(loudest, std::memory_order_relaxed);
    if (mixdown.isLimiting()) limited.store(true, std::memory_order_relaxed);
    rendered += OutputFrames(static_cast<std::int64_t>(count));
}

void Mixer::aimGains() {
    const Lane* lane = player.lane();
    // The turn changes over while the pass before ends, so that the next one's first note is whole; after the
    // lanes have changed over, where those need the time before.
    const std::int64_t ahead = rate.outputFrames(Mixdown::hearingSeconds).value;
    const bool isEarly = lane && lane->ring().taken() + ahead < lane->ownFrom();
    const Lane* turning = isEarly ? player.heardLane() : lane;
    const bool yoursTurn =
        turning && turning->tags().isLooped() &&
        isYoursTurn(turning->tags().passAt(turning->ring().taken() + ahead), turning->wish());
    if (lane) soundingWish.store(lane->wish(), std::memory_order_relaxed);
    // What is held is heard, whatever was listened to before.
    const bool held = lane && lane->isHeld();
    mixdown.aim(held ? Hearing::Record : hearingWanted.load(std::memory_order_relaxed), yoursTurn,
                yoursGain.load(std::memory_order_relaxed), level.load(std::memory_order_relaxed));
    const float click = clickGain.load(std::memory_order_relaxed);
    mixdown.click(clicksWanted.load(std::memory_order_relaxed) ? click : 0.0f, click);
    mixdown.focusOn(focusWanted.load(std::memory_order_relaxed));
    mixdown.bandOn(bandNow());
}

void Mixer::readLanes(std::span<SoundFrame> part) {
    const bool starving = player.read(part) < part.size();
    // What stutters within a tenth of a second is one gap.
    if (starving && wholeFrames >= rate.hertz / 10) countUnderrun();
    wholeFrames = starving ? 0 : wholeFrames + static_cast<std::int64_t>(part.size());
}

void Mixer::noteHeard(bool moving) {
    const Lane* lane = player.heardLane();
    if (!lane) return;
    log.note({rendered, lane->ring().taken(), lane->tags(), lane->wish(), moving, lane->speed(),
              lane->reachedSpeed(), lane->leadStage(), lane->leadBeatFrames(), lane->semitones()});
}

} // namespace earwright
